import { describe, expect, it, vi } from "vitest";
import type { News, Request } from "../../src/page/protocol.ts";
import { SheetHost } from "../../src/page/worker/sheet-host.ts";

const notebook = `---
holdfast: 1
title: A small unit
---

    least = range(0, 100, now: 40)

    eyes = index_eyes(cases)
    rate = failure_rate(eyes)

    double = 2 * least
      minuted 2026-03-14: 80
`;

/** Three invented eyes, one of which redetached; the last row repeats the first. */
const cases = `case,patient,eye,operation_date,technique,last_seen_date,status_last_seen,redetachment_date
1,a,right,2024-01-10,vitrectomy,2025-03-01,attached,
2,b,left,2024-02-01,scleral buckle,2025-04-01,attached,
3,c,right,2024-03-05,vitrectomy,2024-05-05,detached,2024-05-01
4,a,right,2024-01-10,vitrectomy,2025-03-01,attached,
`;

/** A host, and what it has told since it was asked last. */
function hosted() {
  const told: News[] = [];
  const host = new SheetHost((news) => told.push(structuredClone(news)), 20_700);
  return {
    host,
    ask: async (request: Request) => {
      told.length = 0;
      return { reply: await host.answer(request), told: [...told] };
    },
  };
}

const bytes = () => new TextEncoder().encode(cases);

async function opened() {
  const { ask } = hosted();
  await ask({ ask: "open notebook", name: "small.md", text: notebook });
  const { told } = await ask({
    ask: "open cases",
    name: "four.csv",
    bytes: bytes(),
    invented: true,
    atStart: true,
  });
  return { ask, told };
}

function hostedOn(text: string) {
  const told: News[] = [];
  const host = new SheetHost((news) => told.push(structuredClone(news)), 20_700);
  void host.answer({ ask: "open notebook", name: "small.md", text });
  return { host, told };
}

/** A clock that is so many milliseconds further each time it is read: always time to breathe. */
function clockOf(step: number): () => number {
  let time = 1e6;
  return () => {
    time += step;
    return time;
  };
}

const cellsIn = (told: readonly News[]) =>
  told.flatMap((news) => (news.tell === "cells" ? news.views : []));

describe("the host of the sheet", () => {
  it("tells the cases, what becomes stale, then what the cells are worth", async () => {
    vi.spyOn(performance, "now").mockReturnValue(0);
    const { told } = await opened();
    vi.restoreAllMocks();
    expect(told.map(({ tell }) => tell)).toEqual([
      ...["notebook", "cases", "notebook"],
      ...["recalculating", "progress", "cells", "progress"],
    ]);
    const view = told.find((news) => news.tell === "cases")!.view;
    expect(view).toMatchObject({ file: "four.csv", invented: true, rowsRead: 4, leftOut: 1 });
    expect(view.leftOutReasons?.flatMap(({ lines }) => lines)).toEqual([5]);
    const rate = cellsIn(told).find(({ name }) => name === "rate");
    expect(rate).toMatchObject({ status: "current", kind: "answer", nature: "failure rate" });
    expect(rate?.answer?.used).toBe(3);
    expect(rate?.feedsOn).toEqual(["eyes"]);
  });

  it("tells only the cells that an act changed", async () => {
    const { ask } = await opened();
    const { reply, told } = await ask({ ask: "set setting", cell: "least", to: 50 });
    expect(reply).toEqual({ done: true, problems: [] });
    const views = cellsIn(told);
    expect(views.map(({ name }) => name)).toEqual(["least", "double"]);
    expect(views[1]).toMatchObject({ plain: "100" });
    expect(views[1]?.minuted).toEqual([
      { date: "2026-03-14", text: "80", holds: false, now: "100", because: [] },
    ]);
  });

  it("holds a recalculation where it is stopped, and goes on when it may or must", async () => {
    const { host, told } = hostedOn(notebook);
    await host.answer({ ask: "open cases", name: "four.csv", bytes: bytes() });
    told.length = 0;
    const pace = vi.spyOn(performance, "now").mockImplementation(clockOf(50));
    const done = host.answer({ ask: "set setting", cell: "least", to: 60 });
    await vi.waitFor(() => expect(told.map(({ tell }) => tell)).toContain("recalculating"));
    await host.answer({ ask: "stop" });
    await done;
    expect(cellsIn(told)).toEqual([]);
    expect(told.at(-1)).toMatchObject({ tell: "progress", progress: { stopped: true } });
    await host.answer({ ask: "go on" });
    pace.mockRestore();
    await vi.waitFor(() => expect(cellsIn(told).map(({ plain }) => plain)).toContain("120"));
    expect(told.at(-1)).toMatchObject({ tell: "progress", progress: { finished: true } });
  });

  it("undoes the reader's acts, and not the opening of the demo", async () => {
    const { ask } = await opened();
    expect((await ask({ ask: "undo" })).told).toEqual([]);
    await ask({ ask: "set setting", cell: "least", to: 50 });
    const undone = await ask({ ask: "undo" });
    expect(cellsIn(undone.told).map(({ name }) => name)).toEqual(["least", "double"]);
    const notebookTold = undone.told.find((news) => news.tell === "notebook");
    expect(notebookTold?.view.undo).toBeUndefined();
    expect(notebookTold?.view.redo).toBe("set least");
  });

  it("gives the rows behind a number, and null for a number that is not there", async () => {
    const { ask, told } = await opened();
    const { sentence } = cellsIn(told).find(({ name }) => name === "rate")!.answer!;
    const key = sentence.flatMap((part) => (typeof part === "string" ? [] : (part.pick ?? [])))[0]!;
    const { reply } = await ask({ ask: "pick", cell: "rate", key });
    expect(reply).toMatchObject({ behind: { rows: [{ lines: [4] }] } });
    expect((await ask({ ask: "pick", cell: "rate", key: "no such number" })).reply).toBeNull();
    expect((await ask({ ask: "pick", cell: "no_such_cell", key })).reply).toBeNull();
  });

  it("gives rows as they stand, a missing value as a dash", async () => {
    const { ask } = await opened();
    const { reply } = await ask({ ask: "case rows", from: 2, count: 10 });
    expect(reply).toMatchObject({ rows: [{ line: 4 }] });
    const { rows } = reply as { rows: readonly { texts: readonly string[] }[] };
    expect(rows[0]?.texts).toContain("2024-05-01");
    const first = (await ask({ ask: "case rows", from: 0, count: 1 })).reply as typeof reply & {
      rows: readonly { texts: readonly string[] }[];
    };
    expect(first.rows[0]?.texts).toContain("–");
  });

  it("says what could not be done, and changes nothing", async () => {
    const { ask } = await opened();
    const { reply, told } = await ask({ ask: "rename cell", cell: "least", to: "double" });
    expect(reply).toMatchObject({ done: false, problems: [{ severity: "stop" }] });
    expect(told).toEqual([]);
  });

  it("checks and completes what is being written", async () => {
    const { ask } = await opened();
    const checked = await ask({ ask: "check", cell: "rate", text: "failure_rate(eyse)" });
    expect(checked.reply).toMatchObject({ problems: [{ replacement: "eyes" }] });
    const text = "failure_rate(eyes, by: tech";
    const completed = await ask({ ask: "complete", cell: "rate", text, offset: text.length });
    const { options } = completed.reply as { options: readonly { label: string }[] };
    expect(options.map(({ label }) => label)).toContain("technique");
  });

  it("tells the vocabulary as plain data", async () => {
    const { ask } = hosted();
    const { words } = structuredClone((await ask({ ask: "words" })).reply) as {
      words: readonly { name: string; asks?: string }[];
    };
    expect(words.find(({ name }) => name === "failure_rate")?.asks).toBe("How often did it fail?");
  });

  it("gives the notebook back as it was opened", async () => {
    const { ask } = await opened();
    expect((await ask({ ask: "notebook text" })).reply).toEqual({
      name: "small.md",
      text: notebook,
    });
  });
});
