import { describe, expect, it } from "vitest";
import { BookKeeper } from "../../src/page/host/book-keeper.ts";
import type { KeepingState } from "../../src/page/keeping/cases-keeping.ts";
import { FakeHost } from "./fake-host.ts";
import { notebookView } from "./fake-sheet.ts";

const demo = {
  notebook: { name: "demo.md", text: "# Demo" },
  cases: { name: "repairs.csv", text: "case,eye\n1,right\n" },
};

async function openedBook() {
  const host = new FakeHost();
  let changes = 0;
  const keeper = new BookKeeper(host, () => changes++);
  await keeper.open(demo);
  return { host, keeper, changes: () => changes };
}

describe("opening the book", () => {
  it("asks for the words, then opens the demo, its cases as invented", async () => {
    const { host, keeper } = await openedBook();
    expect(host.asked.map(({ ask }) => ask)).toEqual(["words", "open notebook", "open cases"]);
    expect(host.asked[2]).toMatchObject({ name: "repairs.csv", invented: true });
    expect(new TextDecoder().decode((host.asked[2] as { bytes: Uint8Array }).bytes)).toBe(
      demo.cases.text,
    );
    expect(keeper.state.notebook).toBe(notebookView);
    expect(keeper.state.cells.size).toBe(12);
    expect(keeper.state.notices).toEqual([]);
  });
});

describe("cases that are kept on this device", () => {
  async function openedWith(own: KeepingState) {
    const host = new FakeHost();
    const keeper = new BookKeeper(host, () => {});
    await keeper.open(demo, async () => own);
    return { keeper, asked: host.asked.map(({ ask }) => ask) };
  }

  it("take the place of the demo's", async () => {
    const { keeper, asked } = await openedWith("on");
    expect(asked).toEqual(["words", "open notebook"]);
    expect(keeper.state).toMatchObject({ leaf: "sheet", firstMinute: false });
    expect(keeper.state.notices).toHaveLength(1);
  });

  it("are asked for where a passphrase seals them, and the demo's only at the reader's wish", async () => {
    const { keeper, asked } = await openedWith("locked");
    expect(asked).toEqual(["words", "open notebook"]);
    expect(keeper.state).toMatchObject({ leaf: "cases", firstMinute: false });
    await keeper.take({ act: "open invented cases" });
    expect(keeper.state.cases).toMatchObject({ file: "repairs.csv" });
  });

  it("give way, as the demo's do, to a file that the reader opened meanwhile", async () => {
    const host = new FakeHost();
    const keeper = new BookKeeper(host, () => {});
    const opened = keeper.open(demo, async () => {
      await keeper.take({ act: "open file", file: new File(["case\n7"], "mine.csv") });
      return "off";
    });
    await opened;
    expect(keeper.state.cases).toMatchObject({ file: "mine.csv" });
  });

  it("that are damaged are told of, and the demo is there", async () => {
    const { keeper, asked } = await openedWith("unreadable");
    expect(asked).toContain("open cases");
    expect(keeper.state.notices[0]?.text).toContain("cannot be read");
  });
});

describe("acts of the reader", () => {
  it("shows the rows behind a number beside its cell", async () => {
    const { keeper } = await openedBook();
    await keeper.take({ act: "pick", cell: "how_often", key: "all failed" });
    expect(keeper.state.chosen).toBe("how_often");
    expect(keeper.state.picked?.behind.rows).toHaveLength(2);
    await keeper.take({ act: "choose", cell: "why" });
    expect(keeper.state.picked).toBeUndefined();
  });

  it("fetches the rows anew when their cell was recalculated", async () => {
    const { host, keeper } = await openedBook();
    await keeper.take({ act: "pick", cell: "how_often", key: "all failed" });
    const before = host.asked.length;
    host.tell({ tell: "cells", views: [keeper.state.cells.get("how_often")!] });
    await Promise.resolve();
    expect(host.asked.slice(before)).toEqual([
      { ask: "pick", cell: "how_often", key: "all failed" },
    ]);
  });

  it("opens a file by its name: a notebook or cases", async () => {
    const { host, keeper } = await openedBook();
    await keeper.take({ act: "open file", file: new File(["# Mine"], "mine.MD") });
    await keeper.take({ act: "open file", file: new File(["case\n1"], "mine.csv") });
    expect(host.asked.filter(({ ask }) => ask.startsWith("open")).slice(-2)).toEqual([
      { ask: "open notebook", name: "mine.MD", text: "# Mine" },
      { ask: "open cases", name: "mine.csv", bytes: new TextEncoder().encode("case\n1") },
    ]);
  });

  it("follows a cell through its renaming", async () => {
    const { host, keeper } = await openedBook();
    await keeper.take({ act: "choose", cell: "why" });
    const view = { ...notebookView, blocks: [{ type: "row", cells: ["causes"] } as const] };
    host.onAsk = () => host.tell({ tell: "notebook", view });
    await keeper.take({
      act: "change",
      request: { ask: "rename cell", cell: "why", to: "causes" },
    });
    expect(keeper.state.chosen).toBe("causes");
    expect([...keeper.state.cells.keys()]).toEqual([]);
  });

  it("turns an error of the host into a notice that stays until it is put away", async () => {
    const { host, keeper } = await openedBook();
    host.onAsk = () => {
      throw new Error("out of paper");
    };
    await keeper.take({ act: "change", request: { ask: "undo" } });
    const [notice] = keeper.state.notices;
    expect(notice?.text).toContain("out of paper");
    await keeper.take({ act: "put away", notice: notice!.id });
    expect(keeper.state.notices).toEqual([]);
  });

  it("shows what the worker says about itself when it breaks", async () => {
    const { host, keeper } = await openedBook();
    host.tell({ tell: "broken", message: "no memory" });
    expect(keeper.state.notices.map(({ text }) => text)).toEqual([
      expect.stringContaining("no memory"),
    ]);
  });

  it("says what could not be done, and why", async () => {
    const { host, keeper } = await openedBook();
    const problem = { code: "name-taken", severity: "stop", place: {}, message: "taken." } as const;
    host.ask = async () => ({ done: false, problems: [problem] }) as never;
    await keeper.take({
      act: "change",
      request: { ask: "rename cell", cell: "why", to: "when" },
    });
    expect(keeper.state.notices.map(({ problems }) => problems)).toEqual([[problem]]);
    expect(keeper.state.chosen).toBeUndefined();
  });

  it("keeps the old answer of a cell while it is being worked out", async () => {
    const { host, keeper } = await openedBook();
    host.tell({ tell: "recalculating", cells: ["why", "unheard_of"] });
    expect(keeper.state.cells.get("why")).toMatchObject({ status: "recalculating" });
    expect(keeper.state.cells.get("why")?.answer).toBeDefined();
    expect(keeper.state.cells.has("unheard_of")).toBe(false);
  });

  it("shows long work until it is finished", async () => {
    const { host, keeper } = await openedBook();
    host.tell({ tell: "progress", progress: { doing: "Reading", share: 0.5, finished: false } });
    expect(keeper.state.progress?.share).toBe(0.5);
    host.tell({ tell: "progress", progress: { doing: "Reading", finished: true } });
    expect(keeper.state.progress).toBeUndefined();
  });
});
