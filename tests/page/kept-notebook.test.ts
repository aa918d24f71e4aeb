import { describe, expect, it } from "vitest";
import { BookKeeper } from "../../src/page/host/book-keeper.ts";
import { KeptNotebook } from "../../src/page/host/kept-notebook.ts";
import { FakeHost } from "./fake-host.ts";

/** A storage of the browser, which may be full. */
class FakeStorage implements Storage {
  readonly kept = new Map<string, string>();
  full = false;

  get length(): number {
    return this.kept.size;
  }

  clear(): void {
    this.kept.clear();
  }

  key(index: number): string | null {
    return [...this.kept.keys()][index] ?? null;
  }

  getItem(key: string): string | null {
    return this.kept.get(key) ?? null;
  }

  removeItem(key: string): void {
    this.kept.delete(key);
  }

  setItem(key: string, value: string): void {
    if (this.full) throw new Error("QuotaExceededError");
    this.kept.set(key, value);
  }
}

const notebook = { name: "mine.md", text: "# Mine\n" };
const demo = {
  notebook: { name: "demo.md", text: "# Demo" },
  cases: { name: "repairs.csv", text: "case,eye\n1,right\n" },
};

describe("a notebook kept on the device", () => {
  it("is read back with what was being written", () => {
    const storage = new FakeStorage();
    const kept = new KeptNotebook(storage);
    expect(kept.read()).toBeUndefined();
    expect(kept.keep(notebook)).toBe(true);
    kept.keepDraft({ cell: "a", text: "1 +" });
    expect(new KeptNotebook(storage).read()).toEqual({
      notebook,
      draft: { cell: "a", text: "1 +" },
    });
    kept.keepDraft(undefined);
    expect(kept.read()).toEqual({ notebook });
    kept.forget();
    expect(storage.length).toBe(0);
  });

  it("says where it is not kept: no storage, or a full one", () => {
    expect(new KeptNotebook(undefined).keep(notebook)).toBe(false);
    const storage = new FakeStorage();
    storage.full = true;
    expect(new KeptNotebook(storage).keep(notebook)).toBe(false);
  });

  it.each(["{", "null", "7", '{"name":"a"}', '{"name":1,"text":"x"}', "[]"])(
    "is as good as absent where it reads %s",
    (text) => {
      const storage = new FakeStorage();
      storage.setItem("holdfast notebook", text);
      expect(new KeptNotebook(storage).read()).toBeUndefined();
    },
  );
});

describe("opening the book", () => {
  it("opens what is kept in place of the demo's notebook, and says so", async () => {
    const kept = new KeptNotebook(new FakeStorage());
    kept.keep(notebook);
    kept.keepDraft({ cell: "why", text: "failure_causes(ey" });
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
    expect(kept.read()).toEqual({ notebook: { name: "demo.md", text: "# Demo\n" } });
  });

  it("keeps the notebook after every change, and no cases", async () => {
    const storage = new FakeStorage();
    const keeper = new BookKeeper(new FakeHost(), () => {}, new KeptNotebook(storage));
    await keeper.open(demo);
    expect(storage.length).toBe(0);
    await keeper.take({ act: "open file", file: new File(["case\n7"], "mine.csv") });
    expect(storage.length).toBe(0);
    await keeper.take({ act: "change", request: { ask: "undo" } });
    expect(storage.kept.get("holdfast notebook")).toBe('{"name":"demo.md","text":"# Demo\\n"}');
    expect(keeper.state.kept).toBe(true);
    await keeper.take({ act: "begin again" });
    expect(storage.length).toBe(0);
  });
});
