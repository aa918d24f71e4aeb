import { describe, expect, it } from "vitest";
import { BookKeeper } from "../../src/page/host/book-keeper.ts";
import type { DeviceStore } from "../../src/page/host/device-store.ts";
import { KeptNotebook } from "../../src/page/host/kept-notebook.ts";
import { FakeHost } from "./fake-host.ts";

/** A store of the browser, which may be full. */
class FakeStore implements DeviceStore {
  readonly kept = new Map<string, string>();
  full = false;

  async get(key: string): Promise<string | undefined> {
    return this.kept.get(key);
  }

  async set(key: string, text: string | undefined): Promise<boolean> {
    if (text === undefined) this.kept.delete(key);
    else if (!this.full) this.kept.set(key, text);
    return !this.full;
  }
}

const notebook = { name: "mine.md", text: "# Mine\n" };
const demo = {
  notebook: { name: "demo.md", text: "# Demo" },
  cases: { name: "repairs.csv", text: "case,eye\n1,right\n" },
};

describe("a notebook kept on the device", () => {
  it("is read back with what was being written", async () => {
    const store = new FakeStore();
    const kept = new KeptNotebook(store);
    expect(await kept.read()).toBeUndefined();
    expect(await kept.keep(notebook)).toBe(true);
    await kept.keepDraft({ cell: "a", text: "1 +" });
    expect(await new KeptNotebook(store).read()).toEqual({
      notebook,
      draft: { cell: "a", text: "1 +" },
    });
    await kept.keepDraft(undefined);
    expect(await kept.read()).toEqual({ notebook });
    await kept.forget();
    expect(store.kept.size).toBe(0);
  });

  it("says where it is not kept: no store, or a full one", async () => {
    expect(await new KeptNotebook(undefined).keep(notebook)).toBe(false);
    const store = new FakeStore();
    store.full = true;
    expect(await new KeptNotebook(store).keep(notebook)).toBe(false);
  });

  it.each(["{", "null", "7", '{"name":"a"}', '{"name":1,"text":"x"}', "[]"])(
    "is as good as absent where it reads %s",
    async (text) => {
      const store = new FakeStore();
      await store.set("notebook", text);
      expect(await new KeptNotebook(store).read()).toBeUndefined();
    },
  );
});

describe("opening the book", () => {
  it("opens what is kept in place of the demo's notebook, and says so", async () => {
    const kept = new KeptNotebook(new FakeStore());
    await kept.keep(notebook);
    await kept.keepDraft({ cell: "why", text: "failure_causes(ey" });
    const host = new FakeHost();
    const keeper = new BookKeeper(host, () => {}, kept);
    await keeper.open(demo);
    expect(host.asked.map(({ ask }) => ask).slice(0, 4)).toEqual([
      "words",
      "open notebook",
      "open cases",
      "set working",
    ]);
    expect(host.asked[1]).toMatchObject(notebook);
    expect(host.asked[3]).toMatchObject({ cell: "why", working: "failure_causes(ey" });
    expect(keeper.state.notices.map(({ text }) => text)).toEqual([
      expect.stringContaining("mine.md was opened as you left it"),
      expect.stringContaining("why"),
    ]);
    expect(keeper.state.firstMinute).toBe(false);
    expect(await kept.read()).toEqual({ notebook: { name: "demo.md", text: "# Demo\n" } });
  });

  it("keeps the notebook after every change, and no cases", async () => {
    const store = new FakeStore();
    const keeper = new BookKeeper(new FakeHost(), () => {}, new KeptNotebook(store));
    await keeper.open(demo);
    expect(store.kept.size).toBe(0);
    await keeper.take({ act: "open file", file: new File(["case\n7"], "mine.csv") });
    expect(store.kept.size).toBe(0);
    await keeper.take({ act: "change", request: { ask: "undo" } });
    expect(store.kept.get("notebook")).toBe('{"name":"demo.md","text":"# Demo\\n"}');
    expect(keeper.state.kept).toBe(true);
    await keeper.take({ act: "begin again" });
    expect(store.kept.size).toBe(0);
  });
});
