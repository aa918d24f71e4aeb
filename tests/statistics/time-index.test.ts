import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { codeGroups } from "../../src/statistics/group-codes.ts";
import { radixOrder } from "../../src/statistics/radix-order.ts";
import { indexTimes, positionAtOrBefore } from "../../src/statistics/time-index.ts";

describe("the distinct times of a column", () => {
  it("of whole days are the days, each row at its own", () => {
    const { times, position, tolerance } = indexTimes([5, 0, 5, 9]);
    expect(Array.from(times)).toEqual([0, 5, 9]);
    expect(Array.from(position)).toEqual([1, 0, 1, 2]);
    expect(tolerance).toBe(0);
  });

  it("of rounded times join what only rounding holds apart", () => {
    const { times, position } = indexTimes([0.3, 0.1 + 0.2, 0.5, 0.25]);
    expect(Array.from(times)).toEqual([0.25, 0.3, 0.5]);
    expect(Array.from(position)).toEqual([1, 1, 2, 0]);
  });

  it("are found by position, -1 before the first", () => {
    const index = indexTimes([2, 4, 4, 8]);
    expect([1, 2, 3, 4, 7, 8, 99].map((t) => positionAtOrBefore(index, t))).toEqual([
      -1, 0, 0, 1, 1, 2, 2,
    ]);
  });

  it("are the same whether the days are tabled or sorted", () => {
    const days = fc.array(fc.nat(400), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(days, (list) => {
        const tabled = indexTimes(list);
        const sorted = indexTimes(list.map((day) => day + 0.5));
        expect(Array.from(sorted.times, (t) => t - 0.5)).toEqual(Array.from(tabled.times));
        expect(sorted.position).toEqual(tabled.position);
      }),
      { seed: 3, numRuns: 200 },
    );
  });

  it("refuse a time that is missing, negative or endless, by row", () => {
    expect(() => indexTimes([1, Number.NaN])).toThrow("time[1] is NaN");
    expect(() => indexTimes([1, 2, -1])).toThrow("time[2] is -1");
    expect(() => indexTimes([Infinity])).toThrow("time[0] is Infinity");
  });
});

describe("the order of a column", () => {
  const value = fc.oneof(
    fc.double({ min: 0, max: 1e6, noNaN: true }),
    fc.constantFrom(0, 5e-324, 0.1, 1, 1 + 2 ** -52, 1e300),
    // values apart by under a millionth, which the upper bits cannot tell apart
    fc.nat(1000).map((k) => 1 + k * 2 ** -50),
  );

  it("is that of a comparison sort, ties in the order of rows", () => {
    fc.assert(
      fc.property(fc.array(value, { maxLength: 300 }), (list) => {
        const values = Float64Array.from(list, (v) => Math.abs(v));
        const expected = Array.from(values.keys()).sort((a, b) => values[a]! - values[b]! || a - b);
        expect(Array.from(radixOrder(values))).toEqual(expected);
      }),
      { seed: 4, numRuns: 200 },
    );
  });

  it("takes all bits where the upper ones agree", () => {
    const values = Float64Array.from({ length: 500 }, (_, i) => 1 + (500 - i) * 2 ** -50);
    expect(Array.from(radixOrder(values))).toEqual(Array.from({ length: 500 }, (_, i) => 499 - i));
  });
});

describe("group labels as codes", () => {
  it("order numbers by size and text by first appearance", () => {
    expect(codeGroups([7, 2, 7]).labels).toEqual([2, 7]);
    expect(codeGroups(["z", "a", "z"]).labels).toEqual(["z", "a"]);
    expect(Array.from(codeGroups(["z", "a", "z"]).codes)).toEqual([0, 1, 0]);
    expect(codeGroups([0.5, -1, 5000]).labels).toEqual([-1, 0.5, 5000]);
    expect(codeGroups([]).labels).toEqual([]);
    expect(codeGroups([5, "5", 5]).labels).toEqual([5, "5"]);
    expect(Array.from(codeGroups(["5", 5, "5"], [5, "5"]).codes)).toEqual([1, 0, 1]);
  });

  it("of a whole-number column give the same by either way", () => {
    const labels = fc.array(fc.nat(5), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(labels, (list) => {
        const typed = codeGroups(Int32Array.from(list));
        const plain = codeGroups(list);
        expect(typed.labels).toEqual(plain.labels);
        expect(Array.from(typed.codes)).toEqual(Array.from(plain.codes));
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  it("keep labels that look like parts of objects apart", () => {
    expect(codeGroups(["__proto__", "constructor", "__proto__"]).labels).toEqual([
      "__proto__",
      "constructor",
    ]);
  });

  it("keep to a declared order, and refuse what is not in it or missing", () => {
    expect(Array.from(codeGroups(["b"], ["a", "b"]).codes)).toEqual([1]);
    expect(() => codeGroups(["c"], ["a"])).toThrow("group[0] is c; expected one of a");
    expect(() => codeGroups([1, Number.NaN])).toThrow("group[1] is missing");
  });
});
