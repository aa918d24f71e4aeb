import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DifferentValues } from "../../src/cases/different-values.ts";
import { roomFor, WrittenColumn } from "../../src/cases/written-column.ts";

const values = fc.array(fc.constantFrom("", "a", "b", "macula on", "\u00e9"), { maxLength: 30 });

describe("a column of text", () => {
  test("has each different value once, in the order of first appearance", () => {
    const column = WrittenColumn.of(["b", "", "a", "b"]);
    expect(column.different).toEqual(["b", "", "a"]);
    expect([...column.counts()]).toEqual([2, 1, 1]);
    expect([column.length, column.at(3), column.at(4)]).toEqual([4, "b", undefined]);
    expect(WrittenColumn.of([]).different).toEqual([]);
  });

  test("gives back the values of all rows, and asks once for each different one", () => {
    fc.assert(
      fc.property(values, (written) => {
        const asked: string[] = [];
        const column = WrittenColumn.of(written);
        const asking = (value: string) => {
          asked.push(value);
          return value;
        };
        expect(column.map(asking)).toEqual(written);
        expect(asked).toEqual([...new Set(written)]);
      }),
    );
  });

  test("counts, finds, changes and picks rows as a list of values does", () => {
    fc.assert(
      fc.property(values, fc.string({ maxLength: 3 }), (written, put) => {
        const column = WrittenColumn.of(written);
        const isShort = (value: string) => value.length === 1;
        const rows = [...written.keys()].filter((row) => isShort(written[row]!));
        expect(column.count(isShort)).toBe(rows.length);
        expect(column.rowsWhere(isShort)).toEqual(rows);
        const picked = column.rows(rows);
        expect(picked.map((value) => value)).toEqual(rows.map((row) => written[row]));
        expect(picked.different).toEqual([...new Set(rows.map((row) => written[row]))]);
        const changed = column.with(new Map(rows.map((row) => [row, put])));
        const expected = written.map((value) => (isShort(value) ? put : value));
        expect(changed.map((value) => value)).toEqual(expected);
        expect(changed.different).toEqual([...new Set(expected)]);
        const twice = WrittenColumn.joined([column, changed]);
        expect(twice.map((value) => value)).toEqual([...written, ...expected]);
      }),
    );
  });

  test("taken from a list of more values leaves its room as it was", () => {
    const room = roomFor(4);
    const places = Uint32Array.of(3, 1, 3);
    const column = WrittenColumn.among(["", "a", "b", "c"], { places, room });
    expect(column.map((value) => value)).toEqual(["c", "a", "c"]);
    expect([...room]).toEqual([0, 0, 0, 0]);
  });
});

describe("different values of a text", () => {
  test("one place each, however they are cut, and as many as there are", () => {
    const texts = Array.from({ length: 5000 }, (_, i) => `value ${i % 3000}${"x".repeat(i % 40)}`);
    const seen = new DifferentValues();
    const places = texts.map((text) => seen.placeOf(`  ${text}\u00a0;`, 0, text.length + 3));
    expect(places.map((place) => seen.values[place])).toEqual(texts);
    expect(seen.values).toEqual(["", ...new Set(texts)]);
    expect(seen.placeOf(" \u00a0 ", 0, 3)).toBe(0);
  });

  test("texts of one hash stay apart", () => {
    // "Aa" and "BB" have one hash by 31, and so have all texts of the same length made of them.
    const alike = ["AaAaAa", "AaAaBB", "AaBBAa", "BBAaAa", "BBBBBB", "AaBBBB"];
    const seen = new DifferentValues();
    const places = alike.map((text) => seen.placeOf(text, 0, text.length));
    expect(new Set(places).size).toBe(alike.length);
    expect(alike.map((text) => seen.placeOf(text, 0, text.length))).toEqual(places);
  });
});
