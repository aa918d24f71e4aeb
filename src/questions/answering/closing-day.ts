import { columnNamed } from "../../cases/table.ts";
import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { valueGiven } from "../question.ts";
import { daysOf } from "./time-words.ts";

/** The day up to which eyes could have been seen, and how long each could. */
export interface ClosingDay {
  /** Whole days since 1970-01-01. */
  readonly day: number;
  /** "the last day seen in the file" or "as given". */
  readonly source: "last day seen" | "given";
  /** How long an eye could have been followed, in the record's unit; null without its day. */
  readonly possible: (eye: number) => number | null;
}

const yearInDays = 366;

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

/**
 * The last day of any in the file. In a large file up to one day in a hundred that lies more than a
 * year after all others is taken for a slip of the pen and not believed.
 */
function lastDaySeen(record: EyeRecord): number | undefined {
  const days = record.daysSeen ?? [];
  let last = days.length - 1;
  const fewest = days.length - 1 - Math.floor(days.length / 100);
  for (let at = last; at > fewest; at--) {
    if ((days[at] ?? 0) - (days[at - 1] ?? 0) > yearInDays) last = at - 1;
  }
  return days[last];
}
