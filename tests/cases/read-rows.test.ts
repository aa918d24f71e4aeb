import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { valuesOf } from "../../src/cases/heading-row.ts";
import { readRows } from "../../src/cases/read-rows.ts";

function rowsOf(text: string, delimiter = ","): string[][] {
  const rows = readRows(text, delimiter);
  return rows.lines.map((_, row) => [...valuesOf(rows, row)]);
}

describe("rows", () => {
  test("line ends CRLF, LF and CR, also mixed, with their line numbers", () => {
    const text = "a,b\r\n1,2\n3,4\r5,6\n\r\n\n7,8";
    expect(rowsOf(text)).toEqual([
      ["a", "b"],
      ["1", "2"],
      ["3", "4"],
      ["5", "6"],
      ["7", "8"],
    ]);
    expect(readRows(text, ",").lines).toEqual([1, 2, 3, 4, 7]);
  });

  test("quotes hold delimiters, doubled quotes and line ends", () => {
    const text = 'a,b\n"x, ""y""","one\r\ntwo"\n3,4\n';
    expect(rowsOf(text)).toEqual([
      ["a", "b"],
      ['x, "y"', "one\r\ntwo"],
      ["3", "4"],
    ]);
    expect(readRows(text, ",").lines).toEqual([1, 2, 4]);
  });

  test("space around values is left off, also outside quotes", () => {
    expect(rowsOf(' a ,\u00a0b , "c" \n')).toEqual([["a", "b", "c"]]);
  });

  test("rows of another length stay as they are", () => {
    expect(rowsOf("a,b\n1\n1,2,3\n1,2,\n")).toEqual([
      ["a", "b"],
      ["1"],
      ["1", "2", "3"],
      ["1", "2", ""],
    ]);
  });

  test("rows without a value are passed over", () => {
    expect(rowsOf("a,b\n,\n  \n\n1,2\n,,,\n")).toEqual([
      ["a", "b"],
      ["1", "2"],
    ]);
  });

  test("a quote inside a value is a plain sign", () => {
    expect(rowsOf('size\n5" band\n')).toEqual([["size"], ['5" band']]);
    expect(readRows('size\n5" band\n', ",").strayQuotes).toEqual([]);
  });

  test("a quote never closed swallows no row", () => {
    const text = 'a,b\n"x,2\n3,4\n';
    expect(rowsOf(text)).toEqual([
      ["a", "b"],
      ['"x', "2"],
      ["3", "4"],
    ]);
    expect(readRows(text, ",").strayQuotes).toEqual([2]);
  });

  test("a quote closed rows later swallows no row", () => {
    const text = 'a,b,c,d\n1,"x,3,4\n5,6,7,8\n9,y",1,2\n3,4,5,6\n';
    expect(rowsOf(text).map((row) => row.length)).toEqual([4, 4, 4, 4, 4]);
    expect(readRows(text, ",").strayQuotes).toEqual([2]);
  });

  test("text after a closing quote makes the quote a plain sign", () => {
    expect(rowsOf('a,b\n"x"y,2\n')).toEqual([
      ["a", "b"],
      ['"x"y', "2"],
    ]);
  });

  test("what is written by RFC 4180 is read back, whatever it holds", () => {
    const value = fc.string({ unit: fc.constantFrom(...'ab1,;"\n\r \u00e9'.split("")) });
    const row = fc.tuple(value, value, value);
    const file = fc.array(row, { minLength: 1, maxLength: 8 });
    const property = fc.property(file, fc.constantFrom("\n", "\r\n", "\r"), (rows, lineEnd) => {
      const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;
      const text = rows.map((cells) => cells.map(quoted).join(",")).join(lineEnd);
      const expected = rows
        .map((cells) => cells.map((cell) => cell.trim()))
        .filter((cells) => cells.some((cell) => cell !== ""));
      expect(rowsOf(text)).toEqual(expected);
    });
    fc.assert(property, { seed: 4180, numRuns: 400 });
  });
});
