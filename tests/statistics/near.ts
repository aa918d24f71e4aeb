import { expect } from "vitest";

/** Expects numbers within an absolute distance, element by element. */
export function expectNear(
  actual: number | ArrayLike<number>,
  expected: number | ArrayLike<number>,
  distance: number,
): void {
  const values = typeof actual === "number" ? [actual] : actual;
  const wanted = typeof expected === "number" ? [expected] : expected;
  expect(values.length, "number of values").toBe(wanted.length);
  for (let i = 0; i < wanted.length; i++) {
    const off = Math.abs(values[i]! - wanted[i]!);
    expect(off <= distance, `value[${i}] is ${values[i]}; expected ${wanted[i]}`).toBe(true);
  }
}
