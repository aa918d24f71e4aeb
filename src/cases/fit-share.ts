import type { Field } from "./field.ts";
import { isMissing } from "./missing-value.ts";
import { readColumn } from "./values/read-column.ts";
import { plainNumber } from "./values/read-numbers.ts";

/** Different values beyond these tell nothing new. */
const looked = 300;

/**
 * The share of a column's different values that a field can be read from; 1 where there are none.
 * Names of a department's own under a field of codes fit a little: they are matched once by hand.
 */
export function fitShare(written: readonly string[], field: Field, heading: string): number {
  const known = [...new Set(written)].filter((value) => !isMissing(value)).slice(0, looked);
  if (known.length === 0) return 1;
  const reading = readColumn(known, field, { heading, delimiter: "," });
  const unreadable = new Set(reading.faults.map(({ row }) => row));
  const undecided = reading.faults.filter(({ fault }) => fault.code === "day-two-readings").length;
  const share = (known.length - unreadable.size + undecided) / known.length;
  return share === 0 && couldBeCodes(known, field) ? 0.01 : share;
}

function couldBeCodes(known: readonly string[], field: Field): boolean {
  const hasCodes = field.kind === "code" || field.kind === "codes";
  return hasCodes && known.some((value) => plainNumber(value, true) === null);
}
