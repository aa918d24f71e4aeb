import { describe, expect, it } from "vitest";
import type { CellView } from "../../src/page/protocol.ts";
import { resized, rowColumns, rowWidths } from "../../src/page/sheet/row-widths.ts";
import { cellViews } from "./fake-sheet.ts";

const view = (name: string, columns?: number): CellView => ({
  ...cellViews[2]!,
  name,
  ...(columns !== undefined && { columns }),
});

describe("how cells share a row", () => {
  it("is by what each has to show, where nothing is given", () => {
    expect(rowColumns([view("a"), view("b")])).toEqual([6, 6]);
    expect(rowColumns([view("a"), view("b"), view("c"), view("d")])).toEqual([3, 3, 3, 3]);
    expect(rowColumns([view("a")])).toEqual([12]);
  });

  it("leaves to the others what one is given", () => {
    expect(rowColumns([view("a", 8), view("b")])).toEqual([8, 4]);
    expect(rowColumns([view("a", 6), view("b"), view("c")])).toEqual([6, 3, 3]);
    expect(rowWidths([view("a", 5)])).toBe("minmax(0, 5.00fr) minmax(0, 7.00fr)");
  });

  it("fits more than twelve into the row", () => {
    expect(rowColumns([view("a", 12), view("b", 12)])).toEqual([6, 6]);
  });
});

describe("making a cell wider or narrower", () => {
  const change = (cells: readonly CellView[], name: string, columns: number) =>
    Object.fromEntries(resized(cells, name, columns));

  it("takes from the neighbour, and gives to it", () => {
    expect(change([view("a"), view("b")], "a", 7)).toEqual({ a: 7, b: 5 });
    expect(change([view("a"), view("b")], "a", 4)).toEqual({ a: 4, b: 8 });
    expect(change([view("a"), view("b")], "b", 7)).toEqual({ b: 7, a: 5 });
    expect(change([view("a"), view("b"), view("c")], "b", 5)).toEqual({ b: 5, c: 3 });
  });

  it("stops where either would be too narrow to read", () => {
    expect(change([view("a"), view("b")], "a", 40)).toEqual({ a: 10, b: 2 });
    expect(change([view("a"), view("b")], "a", -3)).toEqual({ a: 2, b: 10 });
    expect(change([view("a", 10), view("b", 2)], "a", 11)).toEqual({});
  });

  it("leaves room empty beside a cell that stands alone, and takes that first", () => {
    expect(change([view("a")], "a", 8)).toEqual({ a: 8 });
    expect(change([view("a", 8)], "a", 9)).toEqual({ a: 9 });
    expect(change([view("a")], "a", 13)).toEqual({});
    expect(change([view("a", 4), view("b", 4)], "a", 7)).toEqual({ a: 7, b: 4 });
  });
});
