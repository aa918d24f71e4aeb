import { beforeAll, describe, expect, it } from "vitest";
import type { Arrangement } from "../../src/page/cases-protocol.ts";
import { SheetHost } from "../../src/page/worker/sheet-host.ts";
import { largeCases } from "./large-cases.ts";

const rows = 50_000;
const amberRow = 40_000;

let host: SheetHost;
let columns: readonly string[] = [];

beforeAll(async () => {
  host = new SheetHost((news) => {
    if (news.tell === "cases") columns = (news.view.leaf?.columns ?? []).map(({ name }) => name);
  }, 20_700);
  const bytes = new TextEncoder().encode(largeCases({ rows, columns: 45, amberRow }));
  await host.answer({ ask: "open cases", name: "big.csv", bytes });
}, 60_000);

const start = { row: 0, column: -1 };

function find(text: string, { arrangement = {} as Arrangement, behind = start } = {}) {
  return host.answer({ ask: "find in cases", wanted: { text, arrangement, columns, behind } });
}

describe("finding a text in many rows", () => {
  it("gives the place in the order in which rows are shown, then begins again", async () => {
    const found = await find("AMBER");
    expect(found).toMatchObject({ row: amberRow - 1 });
    const { row, column } = found as { readonly row: number; readonly column: string };
    const behind = { row, column: columns.indexOf(column) };
    expect(await find("amber", { behind })).toEqual(found);
    const arrangement = { sort: { column: "case", descending: true } };
    expect(await find("amber", { arrangement })).toEqual({
      ...{ row: rows - amberRow, line: amberRow + 1, column },
    });
    expect(await find("nowhere to be found")).toBeNull();
    expect(await find("  ")).toBeNull();
  });

  it("lets other questions be answered meanwhile", async () => {
    const answered: string[] = [];
    const search = find("nowhere to be found").then(() => answered.push("search"));
    // Handed in behind the search, as another message to the worker is.
    await new Promise((later) => setTimeout(later));
    expect(answered).toEqual([]);
    const { count } = await host.answer({
      ask: "arranged rows",
      arrangement: {},
      from: 0,
      count: 1,
    });
    answered.push(`${count} rows`);
    await search;
    expect(answered).toEqual([`${rows} rows`, "search"]);
  });

  it("is overtaken by a search that begins later", async () => {
    const first = find("nowhere to be found");
    await new Promise((later) => setTimeout(later));
    const second = find("amber");
    expect(await first).toEqual({ overtaken: true });
    expect(await second).toMatchObject({ row: amberRow - 1 });
  });

  it("and copying many rows let other questions be answered meanwhile", async () => {
    const range = { arrangement: {}, rows: [0, rows - 1], columns } as const;
    let isCopied = false;
    const copy = host.answer({ ask: "range text", range }).then(({ text }) => {
      isCopied = true;
      return text.split("\n");
    });
    await new Promise((later) => setTimeout(later));
    await host.answer({ ask: "arranged rows", arrangement: {}, from: 0, count: 1 });
    expect(isCopied).toBe(false);
    const lines = await copy;
    expect(lines).toHaveLength(rows);
    expect(lines.at(-1)?.split("\t").slice(0, 3)).toEqual([String(rows), `P${rows}`, "left"]);
  });

  it("begins again where the cases change underneath", async () => {
    const search = find("amber");
    await new Promise((later) => setTimeout(later));
    const text = "case,patient,eye,date of operation,mark m0\n1,U1,left,2024-01-01,amber\n";
    const bytes = new TextEncoder().encode(text);
    await host.answer({ ask: "open cases", name: "small.csv", bytes });
    expect(await search).toMatchObject({ row: 0 });
  });
});
