import { describe, expect, test } from "vitest";
import { rebuildOnChange } from "../../src/command/rebuild-on-change.ts";

/** Time that passes only when told to. */
function clock() {
  const waiting = new Set<() => void>();
  return {
    later: (act: () => void) => {
      waiting.add(act);
      return () => waiting.delete(act);
    },
    pass: () => {
      const due = [...waiting];
      waiting.clear();
      for (const act of due) act();
    },
  };
}

const soon = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

describe("rebuilding on change", () => {
  test("signs that come close together are one change", async () => {
    const { later, pass } = clock();
    let built = 0;
    const { changed } = rebuildOnChange(async () => void built++, later);
    for (let sign = 0; sign < 5; sign++) changed();
    expect(built).toBe(0);
    pass();
    await soon();
    expect(built).toBe(1);
    pass();
    await soon();
    expect(built).toBe(1);
  });

  test("a change during a rebuild leads to another one after it, never beside it", async () => {
    const { later, pass } = clock();
    const finish: (() => void)[] = [];
    let atOnce = 0;
    let most = 0;
    const { changed } = rebuildOnChange(async () => {
      most = Math.max(most, ++atOnce);
      await new Promise<void>((resolve) => finish.push(resolve));
      atOnce--;
    }, later);
    changed();
    pass();
    await soon();
    changed();
    pass();
    await soon();
    expect(finish).toHaveLength(1);
    finish[0]?.();
    await soon();
    expect(finish).toHaveLength(2);
    finish[1]?.();
    await soon();
    expect(most).toBe(1);
  });

  test("nothing begins once it is stopped", async () => {
    const { later, pass } = clock();
    let built = 0;
    const { changed, stop } = rebuildOnChange(async () => void built++, later);
    changed();
    await stop();
    pass();
    await soon();
    expect(built).toBe(0);
  });
});
