import { columnNamed } from "../../cases/table.ts";
import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { daysOf } from "../answering/time-words.ts";
import { valueGiven } from "../question.ts";

/** The day up to which eyes could have been seen, and how long each could. */
export interface ClosingDay {
  /** Whole days since 1970-01-01. */
  readonly day: number;
  /** "the last day seen in the file" or "as given". */
  readonly source: "last day seen" | "given";
  /** How long an eye could have been followed, in the record's unit; null without its day. */
  readonly possible: (eye: number) => number | null;
}

const daysSeen = [
  "operation_date",
  "last_seen_date",
  "redetachment_date",
  "reoperation_date",
  "death_date",
];

/**
 * The day given as `until`, else the last day that the file has anyone seen on. Undefined where the
 * file has no days of operation. A window on the eyes limits what was possible as well.
 */
export function closingDay(record: EyeRecord, given: GivenArguments): ClosingDay | undefined {
  const operated = columnNamed(record.table, "operation_date")?.values;
  if (operated === undefined) return undefined;
  const asked = valueGiven(given, "until");
  const day = asked?.kind === "day" ? asked.day : lastDaySeen(record);
  if (day === undefined) return undefined;
  const window = record.window?.length ?? Number.POSITIVE_INFINITY;
  const unit = daysOf(record, 1);
  return {
    day,
    source: asked?.kind === "day" ? "given" : "last day seen",
    possible: (eye) => {
      const start = operated[eye];
      return typeof start === "number" ? Math.min(window, (day - start) / unit) : null;
    },
  };
}

function lastDaySeen(record: EyeRecord): number | undefined {
  let last: number | undefined;
  for (const name of daysSeen) {
    for (const day of columnNamed(record.table, name)?.values ?? []) {
      if (typeof day === "number" && (last === undefined || day > last)) last = day;
    }
  }
  return last;
}
