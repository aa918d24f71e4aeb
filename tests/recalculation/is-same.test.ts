import { describe, expect, test } from "vitest";
import { isSame } from "../../src/recalculation/is-same.ts";

const thing = () => ({ kind: "thing", of: "eyes", parts: new Map(), content: 1 });

describe("values are the same", () => {
  test.each([
    [Number.NaN, Number.NaN],
    [null, null],
    [{ a: [1, { b: "x" }] }, { a: [1, { b: "x" }] }],
    [new Map([["a", [1]]]), new Map([["a", [1]]])],
    [[], []],
  ])("%o and %o", (one, other) => expect(isSame(one, other)).toBe(true));
  test("things by identity", () => {
    const one = thing();
    expect(isSame([one], [one])).toBe(true);
  });
});

describe("values differ", () => {
  test.each([
    [0, -0],
    [1, "1"],
    [null, undefined],
    [{ a: 1 }, { a: 1, b: undefined }],
    [{ a: undefined }, { b: undefined }],
    [[1, 2], [1]],
    [[], {}],
    [{}, []],
    [{ constructor: 1 }, { a: 1 }],
    [new Map([["a", 1]]), new Map([["b", 1]])],
    [new Map(), {}],
    [new Float64Array(1), new Float64Array(1)],
    [thing(), thing()],
    [[thing()], [thing()]],
  ])("%o and %o", (one, other) => expect(isSame(one, other)).toBe(false));
});
