import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { Figure, FigureRecord } from "../answer.ts";
import type { Grouping } from "../answering/grouping.ts";
import { type GroupRate, headlineOf } from "./rate-of-group.ts";

/** What the sentence, the table and the chart of a failure rate are all made from. */
export interface RateParts {
  readonly record: EyeRecord;
  readonly grouping: Grouping;
  readonly total: GroupRate;
  readonly groups: readonly GroupRate[];
  readonly window: TimeWindow | undefined;
  /** In the record's unit: visits may come this much early. */
  readonly tolerance: number;
  readonly beside: number | undefined;
}

/** The numbers of one group by name. */
export function rateFigures(rate: GroupRate): FigureRecord {
  const headline = headlineOf(rate);
  return {
    failed: rate.failed,
    eyes: rate.eyes,
    not_known: rate.notKnown,
    rate: rate.rate,
    lower: rate.interval?.lower ?? null,
    upper: rate.interval?.upper ?? null,
    interval: rate.interval?.method ?? null,
    lowest: rate.lowest,
    highest: rate.highest,
    curve: rate.curve?.estimate ?? null,
    curve_lower: rate.curve?.lower ?? null,
    curve_upper: rate.curve?.upper ?? null,
    headline_rate: headline?.estimate ?? null,
    headline_lower: headline?.lower ?? null,
    headline_upper: headline?.upper ?? null,
    headline_interval: headline?.method ?? null,
  } satisfies Record<string, Figure>;
}
