import type { Answered } from "../answer.ts";
import type { Measured, MeasuredShare } from "./measured-share.ts";
import { type Level, type Verdict, verdictOf } from "./verdict.ts";

/** A standard as the meeting set it, and what is to follow. */
export interface Standard extends Level {
  readonly source: string;
  readonly action?: string;
  /** Who sees to the action: a role, not a name. */
  readonly role?: string;
  /** Day since 1970-01-01. */
  readonly reAudit?: number;
}

/** What the sentence, the table, the chart and the figures are all made from. */
export interface StandardParts {
  readonly of: Answered;
  readonly measured: Measured;
  readonly standard: Standard;
  /** Groups, and all eyes last. */
  readonly judged: readonly JudgedShare[];
}

/** A share turned the way the standard looks: of successes for at least, of failures for at most. */
export interface JudgedShare extends MeasuredShare {
  readonly verdict: Verdict;
}

export function judged(measured: Measured, standard: Standard): JudgedShare[] {
  const wanted = standard.side === "at least" ? "success" : "failure";
  return measured.shares.map((share) => {
    const turned = wanted === measured.measures ? share : complement(share);
    const { lower, upper } = turned;
    const interval = lower === null || upper === null ? null : { lower, upper };
    return { ...turned, verdict: verdictOf(interval, standard) };
  });
}

function complement(share: MeasuredShare): MeasuredShare {
  const less = (value: number | null): number | null => (value === null ? null : 1 - value);
  return {
    ...share,
    estimate: less(share.estimate),
    lower: less(share.upper),
    upper: less(share.lower),
    ...(share.open === undefined
      ? {}
      : { open: { ...share.open, none: 1 - share.open.none, all: 1 - share.open.all } }),
  };
}

/** "at least 85%", "at most 12.5%". */
export function standardText({ side, level }: Level): string {
  return `${side} ${Number((100 * level).toFixed(2))}%`;
}
