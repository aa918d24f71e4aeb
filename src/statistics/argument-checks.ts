/**
 * Refusals shared by every statistic.
 *
 * Callers leave out missing values and count them; a missing or impossible value that still
 * arrives here is a defect of the caller, so it is refused with what, where and what would be
 * right. A value of the wrong kind is a TypeError, a value outside its range a RangeError.
 */
import { sumOf } from "./column-sums.ts";

/** Refuses a level that is not strictly between 0 and 1 (0.95 is 95%). */
export function requireLevel(level: number): void {
  requireBetween("level", level, 0, 1);
}

/** Refuses a number that is not strictly between `least` and `most`. */
export function requireBetween(name: string, value: number, least: number, most: number): void {
  if (!(value > least && value < most)) {
    throw new RangeError(`${name} is ${value}; expected a number between ${least} and ${most}`);
  }
}

/** Refuses anything but a whole number of 0 or more. */
export function requireCount(name: string, value: number): void {
  if (typeof value !== "number") {
    throw new TypeError(`${name} is ${String(value)}; expected a whole number`);
  }
  if (!Number.isSafeInteger(value) || value < 0) {
    throw new RangeError(`${name} is ${value}; expected a whole number of 0 or more`);
  }
}

/** Refuses a part larger than its whole. */
export function requirePartOfWhole(failed: number, total: number): void {
  requireCount("failed", failed);
  requireCount("total", total);
  if (failed > total) {
    throw new RangeError(`failed is ${failed} of a total of ${total}; expected at most the total`);
  }
}

/** Refuses columns of different lengths. */
export function requireSameLength(
  columns: Readonly<Record<string, ArrayLike<unknown> | undefined>>,
): void {
  const given = Object.entries(columns).filter((column) => column[1] !== undefined);
  const [firstName, first] = given[0]!;
  for (const [name, values] of given) {
    if (values!.length !== first!.length) {
      throw new RangeError(
        `${name} has ${values!.length} values, ${firstName} has ${first!.length}; expected the same`,
      );
    }
  }
}

/** Refuses a column with a value that is not a finite number of `least` or more. */
export function requireNumbers(name: string, values: ArrayLike<number>, least = -Infinity): void {
  // a sum is finite only where every number is, and many are summed in less time than looked at one by one
  if (least === -Infinity && values instanceof Float64Array && Number.isFinite(sumOf(values)))
    return;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    const isNumber = value > -Infinity && value < Infinity;
    if (!(isNumber && value >= least)) refuseNumber(`${name}[${i}]`, value, least);
  }
}

/** Throws the refusal of one number: TypeError when it is no number, RangeError otherwise. */
export function refuseNumber(name: string, value: unknown, least: number): never {
  if (typeof value !== "number") {
    throw new TypeError(`${name} is ${String(value)}; expected a number`);
  }
  const wanted = least === -Infinity ? "a finite number" : `a finite number of ${least} or more`;
  throw new RangeError(`${name} is ${value}; expected ${wanted}`);
}

/** 1 for an event, 0 for none; anything but 1, 0, true and false is refused. */
export function readEvent(value: number | boolean | undefined, row: number): 0 | 1 {
  if (value === 1 || value === true) return 1;
  if (value === 0 || value === false) return 0;
  throw new TypeError(`event[${row}] is ${String(value)}; expected 1, 0, true or false`);
}
