import type { Field } from "./field.ts";
import { isMissing } from "./missing-value.ts";
import { readColumn } from "./values/read-column.ts";
import { plainNumber } from "./values/read-numbers.ts";

/** Different values beyond these tell nothing new. */
const looked = 300;

/**
 * The share of a column's values that a field can be read from; 1 where there are none. Names of a
 * department's own under a field of codes fit a little: they are matched once by hand.
 */
export function fitShare(written: readonly string[], field: Field, heading: string): number {
  const counts = countsOf(written);
  const known = [...counts.keys()].filter((value) => !isMissing(value)).slice(0, looked);
  if (known.length === 0) return 1;
  const reading = readColumn(known, field, { heading, delimiter: "," });
  const unread = reading.faults.filter(({ fault }) => fault.code !== "day-two-readings");
  const rowsOf = (values: readonly string[]) =>
    values.reduce((sum, value) => sum + counts.get(value)!, 0);
  const share = 1 - rowsOf(unread.map(({ row }) => known[row]!)) / rowsOf(known);
  return share === 0 && couldBeCodes(known, field) ? 0.01 : share;
}

function countsOf(written: readonly string[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const value of written) counts.set(value, (counts.get(value) ?? 0) + 1);
  return counts;
}

function couldBeCodes(known: readonly string[], field: Field): boolean {
  const hasCodes = field.kind === "code" || field.kind === "codes";
  return hasCodes && known.some((value) => plainNumber(value, true) === null);
}
