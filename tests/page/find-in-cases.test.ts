import { beforeAll, describe, expect, it, vi } from "vitest";
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

/**
 * Begins long work, and does something while it pauses, as another message to the worker does: the
 * clock goes so fast that the work pauses at every other row, however fast the machine is.
 */
async function meanwhile<Result>(
  begin: () => Promise<Result>,
  act: () => void | Promise<void>,
): Promise<Result> {
  let time = 1e6;
  const clock = vi.spyOn(performance, "now").mockImplementation(() => {
    time += 30;
    return time;
  });
  const work = begin();
  await new Promise((later) => setTimeout(later));
  await act();
  clock.mockRestore();
  return work;
}

const firstRow = () => host.answer({ ask: "arranged rows", arrangement: {}, from: 0, count: 1 });

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
    const search = () => find("nowhere to be found").then(() => answered.push("search"));
    await meanwhile(search, async () => {
      const { count } = await firstRow();
      answered.push(`${count} rows`);
    });
    expect(answered).toEqual([`${rows} rows`, "search"]);
  });

  it("is overtaken by a search that begins later", async () => {
    let later: ReturnType<typeof find> | undefined;
    const first = await meanwhile(
      () => find("nowhere to be found"),
      () => {
        later = find("amber");
      },
    );
    expect(first).toEqual({ overtaken: true });
    expect(await later).toMatchObject({ row: amberRow - 1 });
  });

  it("and copying many rows let other questions be answered meanwhile", async () => {
    const range = { arrangement: {}, rows: [0, rows - 1], columns } as const;
    const done: string[] = [];
    const copy = async () => {
      const { text } = await host.answer({ ask: "range text", range });
      done.push("copied");
      return text.split("\n");
    };
    const lines = await meanwhile(copy, async () => {
      await firstRow();
      done.push("answered");
    });
    expect(done).toEqual(["answered", "copied"]);
    expect(lines).toHaveLength(rows);
    expect(lines.at(-1)?.split("\t").slice(0, 3)).toEqual([String(rows), `P${rows}`, "left"]);
  });

  it("begins again where the cases change underneath", async () => {
    const text = "case,patient,eye,date of operation,mark m0\n1,U1,left,2024-01-01,amber\n";
    const bytes = new TextEncoder().encode(text);
    const found = await meanwhile(
      () => find("amber"),
      async () => {
        await host.answer({ ask: "open cases", name: "small.csv", bytes });
      },
    );
    expect(found).toMatchObject({ row: 0 });
  });
});
