import type { Field } from "./field.ts";
import { isMissing } from "./missing-value.ts";
import { readColumn } from "./values/read-column.ts";
import { plainNumber } from "./values/read-numbers.ts";
import { WrittenColumn } from "./written-column.ts";

/** Different values beyond these tell nothing new. */
const looked = 300;

/**
 * The share of a column's values that a field can be read from; 1 where there are none. Names of a
 * department's own under a field of codes fit a little: they are matched once by hand.
 */
export function fitShare(written: WrittenColumn, field: Field, heading: string): number {
  const rows = written.counts();
  const counts = new Map(written.different.map((value, place) => [value, rows[place]!]));
  const known = written.different.filter((value) => !isMissing(value)).slice(0, looked);
  if (known.length === 0) return 1;
  const reading = readColumn(WrittenColumn.of(known), field, { heading, delimiter: "," });
  const unread = reading.faults.filter(({ fault }) => fault.code !== "day-two-readings");
  const rowsOf = (values: readonly string[]) =>
    values.reduce((sum, value) => sum + counts.get(value)!, 0);
  const share = 1 - rowsOf(unread.map(({ row }) => known[row]!)) / rowsOf(known);
  return share === 0 && couldBeCodes(known, field) ? 0.01 : share;
}

function couldBeCodes(known: readonly string[], field: Field): boolean {
  const hasCodes = field.kind === "code" || field.kind === "codes";
  return hasCodes && known.some((value) => plainNumber(value, true) === null);
}
