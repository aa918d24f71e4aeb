import type { ColumnContext, DayOrder, Remark } from "./column-reading.ts";
import type { WrittenDay } from "./written-day.ts";

export interface DayOrderSettled {
  readonly dayOrder?: DayOrder;
  /** Taken from other columns: to be asked anew of each file, not to be kept. */
  readonly isBorrowed?: true;
  readonly remarks: readonly Remark[];
}

/** One row in this many may stand against the others and the column still count as settled. */
const rareSlip = 50;

/**
 * Whether a column writes the day or the month first. `counts` says how many rows hold each value
 * of two numbers and a year. Only values with one reading (31/03/2025) are evidence. The notebook
 * comes first, then the values; a few against many are taken for slips, and said. A column
 * without evidence follows the others where they agree, and that is said too.
 */
export function settleDayOrder(
  counts: ReadonlyMap<WrittenDay, number>,
  context: ColumnContext,
): DayOrderSettled {
  const evidence = weigh(counts);
  const told = context.settled?.dayOrder;
  if (told !== undefined) return { dayOrder: told, remarks: contradicted(evidence, told) };
  const { dayFirst, monthFirst, either } = evidence;
  if (dayFirst + monthFirst === 0) return withoutEvidence(either, context.dayOrderBeside);
  const dayOrder = dayFirst >= monthFirst ? "day first" : "month first";
  const against = Math.min(dayFirst, monthFirst);
  if (against === 0) return { dayOrder, remarks: [] };
  if (against * rareSlip > dayFirst + monthFirst) return { remarks: [mixed(evidence)] };
  return { dayOrder, remarks: [slips(dayOrder, against)] };
}

function withoutEvidence(either: number, beside: DayOrder | undefined): DayOrderSettled {
  if (either === 0) return { remarks: [] };
  if (beside === undefined) return { remarks: [undecided(either)] };
  return { dayOrder: beside, isBorrowed: true, remarks: [followed(either, beside)] };
}

interface Evidence {
  readonly dayFirst: number;
  readonly monthFirst: number;
  /** Rows that can be read both ways, to different days. */
  readonly either: number;
}

function weigh(counts: ReadonlyMap<WrittenDay, number>): Evidence {
  const evidence = { dayFirst: 0, monthFirst: 0, either: 0 };
  for (const [written, rows] of counts) {
    if (written.shape !== "numeric" || written.dayFirst === written.monthFirst) continue;
    if (written.monthFirst === null) evidence.dayFirst += rows;
    else if (written.dayFirst === null) evidence.monthFirst += rows;
    else evidence.either += rows;
  }
  return evidence;
}

function undecided(either: number): Remark {
  return {
    severity: "query",
    code: "day-order-undecided",
    message: `nothing in this column tells whether the day or the month comes first; ${rows(either)} can be read both ways and ${either === 1 ? "is" : "are"} missing until you say.`,
    expected: "at least one date with a day after the 12th, or your word",
    remedy: "say for this column: day first, or month first",
  };
}

function followed(either: number, dayOrder: DayOrder): Remark {
  return {
    severity: "query",
    code: "day-order-followed",
    message: `nothing in this column tells whether the day or the month comes first; ${rows(either)} that can be read both ways ${either === 1 ? "was" : "were"} read with the ${dayOrder}, as the other dates of this file are.`,
    expected: "at least one date with a day after the 12th, or your word",
    remedy:
      "check one of them against the record, and say for this column: day first, or month first",
  };
}

function mixed({ dayFirst, monthFirst, either }: Evidence): Remark {
  return {
    severity: "query",
    code: "day-order-mixed",
    message: `${rows(dayFirst)} can only have the day first and ${rows(monthFirst)} only the month first; ${rows(either)} can be read both ways and ${either === 1 ? "is" : "are"} missing until you say.`,
    expected: "one order in the whole column",
    remedy: "write the dates as 2025-03-31, or say which order the others have",
  };
}

function slips(dayOrder: DayOrder, against: number): Remark {
  return {
    severity: "query",
    code: "day-order-slip",
    message: `this column was read with the ${dayOrder}; ${rows(against)} can only be read the other way and ${against === 1 ? "is" : "are"} missing.`,
    expected: "one order in the whole column",
    remedy: "correct them, and check how the dates around them were typed",
  };
}

function contradicted(evidence: Evidence, told: DayOrder): Remark[] {
  const against = told === "day first" ? evidence.monthFirst : evidence.dayFirst;
  if (against === 0) return [];
  return [
    {
      severity: "query",
      code: "day-order-contradicted",
      message: `the notebook says ${told}, but ${rows(against)} can only be read the other way and ${against === 1 ? "is" : "are"} missing.`,
      expected: `dates with the ${told}`,
      remedy: "check which order this file has, and change it in the notebook if need be",
    },
  ];
}

function rows(count: number): string {
  return count === 1 ? "1 row" : `${count} rows`;
}
