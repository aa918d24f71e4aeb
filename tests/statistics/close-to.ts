import { expect } from "vitest";

type Numbers = number | null | undefined | ArrayLike<number | null>;

/**
 * Expects `actual` within a relative distance `tolerance` of `expected` (absolute where the
 * expected number is under 1e-3 of the unit), element by element; null and NaN only equal themselves.
 */
export function expectClose(actual: Numbers, expected: Numbers, tolerance = 1e-9): void {
  if (typeof expected === "object" && expected !== null) {
    const values = actual as ArrayLike<number | null>;
    expect(values.length, "number of values").toBe(expected.length);
    for (let i = 0; i < expected.length; i++) {
      expectOne(values[i]!, expected[i]!, { tolerance, place: `[${i}]` });
    }
    return;
  }
  expectOne(actual as number | null, expected as number | null, { tolerance, place: "" });
}

/** Expects `actual` to round to the printed number `printed`. */
export function expectPrinted(actual: number, printed: string): void {
  const digits = printed.split(".")[1]?.length ?? 0;
  expect(
    Math.abs(actual - Number(printed)),
    `${actual} against the printed ${printed}`,
  ).toBeLessThanOrEqual(0.5 * 10 ** -digits * (1 + 1e-9));
}

function expectOne(
  actual: number | null,
  expected: number | null,
  { tolerance, place }: { tolerance: number; place: string },
): void {
  if (expected === null || Number.isNaN(expected) || !Number.isFinite(expected)) {
    expect(actual, `value${place}`).toBe(expected);
    return;
  }
  const allowed = tolerance * Math.max(Math.abs(expected), 1e-3);
  const distance = Math.abs((actual ?? Number.NaN) - expected);
  expect(distance <= allowed, `value${place} is ${actual}; expected ${expected}`).toBe(true);
}
