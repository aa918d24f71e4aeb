import type { Answer, Figure, FigureRecord } from "../answer.ts";

/** A share of an answer with its interval, fractions of 1; null: cannot be estimated. */
export interface MeasuredShare {
  readonly label: string;
  /** Eyes counted, and of how many. */
  readonly events: number;
  readonly total: number;
  readonly estimate: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Of the interval, by name. */
  readonly method: string;
  /** Eyes whose outcome is not known, and the share if none of them had failed, and if all had. */
  readonly open?: {
    readonly eyes: number;
    readonly none: number;
    readonly all: number;
    readonly pick: string;
  };
  /** Keys in the answer's own picks. */
  readonly eventsPick: string;
  readonly totalPick: string;
}

/** What of an answer can be set against a standard. */
export interface Measured {
  /** Whether the shares are of what one hopes for, or of what one fears. */
  readonly measures: "success" | "failure";
  /** What counted as a failure, where that is asked of the eyes: "detached at last visit". */
  readonly definition?: string;
  /** What was counted, after its number: "failed within 12 months", and in short: "failed". */
  readonly counted: string;
  readonly short: string;
  readonly success: ShareWords;
  readonly failure: ShareWords;
  /** Groups, and all eyes last. */
  readonly shares: readonly MeasuredShare[];
}

/** A share after its number ("were free of failure"), and as a heading ("free of failure"). */
export interface ShareWords {
  readonly words: string;
  readonly heading: string;
}

/** Whether a standard is a share to be reached, or one not to be passed. */
type Side = "at least" | "at most";

type Reader = (figures: FigureRecord, side: Side) => Measured | undefined;

/** By question. Only these answers hold a share with an interval that a standard is made for. */
const readers: Readonly<Record<string, Reader>> = {
  failure_rate: (figures) => failures(figures, groupKeys("failed", "all")),
  definitions: (figures) =>
    failures({ ...figures, groups: [] }, () => ["chosen:failed", "chosen:all"]),
  attachment_curve: stillAttached,
  after_failure: mendedAfterFailure,
  acuity_change: (figures, side) => (side === "at least" ? gained(figures) : lost(figures)),
};

export const measurable: readonly string[] = Object.keys(readers);

/** Of a change of acuity, what is to be reached is a gain, and what is not to be passed a loss. */
export function measuredShares({ question, figures }: Answer, side: Side): Measured | undefined {
  return Object.hasOwn(readers, question) ? readers[question]?.(figures, side) : undefined;
}

type Keys = (position: number, isTotal: boolean) => readonly [events: string, total: string];

/** The rows of a table are `g0`, `g1` … and `all`. */
function groupKeys(events: string, total: string): Keys {
  return (position, isTotal) => {
    const row = isTotal ? "all" : `g${position}`;
    return [`${row}:${events}`, `${row}:${total}`];
  };
}

/** The figures of each group, and those of all eyes last. */
function eachGroup(
  figures: FigureRecord,
  read: (own: FigureRecord) => Omit<MeasuredShare, "label" | "eventsPick" | "totalPick">,
  keys: Keys,
): MeasuredShare[] {
  const groups = (Array.isArray(figures.groups) ? figures.groups : []) as readonly FigureRecord[];
  return [...groups, figures].map((own, position) => {
    const isTotal = position === groups.length;
    const [eventsPick, totalPick] = keys(position, isTotal);
    const label = isTotal ? "all eyes" : String(own.group);
    return { label, ...read(own), eventsPick, totalPick };
  });
}

function failures(figures: FigureRecord, keys: Keys): Measured {
  const within = typeof figures.within === "string" ? ` within ${figures.within}` : "";
  return {
    measures: "failure",
    ...(typeof figures.failure === "string" ? { definition: figures.failure } : {}),
    counted: `failed${within}`,
    short: "failed",
    success: { words: "were free of failure", heading: "free of failure" },
    failure: { words: "failed", heading: "failed" },
    shares: eachGroup(
      figures,
      (own) => ({
        events: count(own.failed),
        // The plain share is of the eyes whose outcome is known, the curve's of all.
        total: count(own.eyes) + (isByCurve(own) ? count(own.not_known) : 0),
        estimate: share(own.headline_rate),
        lower: share(own.headline_lower),
        upper: share(own.headline_upper),
        method: String(own.headline_interval ?? ""),
        ...openOf(own),
      }),
      keys,
    ).map(withOwnPicks),
  };
}

/** Known eyes behind a share of those known; and the way to those that are not. */
function withOwnPicks(share: MeasuredShare): MeasuredShare {
  const row = share.eventsPick.replace(/failed$/, "");
  const isOfAll = share.method.startsWith("Kaplan–Meier") || share.open === undefined;
  return {
    ...share,
    totalPick: isOfAll ? share.totalPick : `${row}known`,
    ...(share.open === undefined ? {} : { open: { ...share.open, pick: `${row}not known` } }),
  };
}

function openOf({ not_known: notKnown, lowest, highest }: FigureRecord) {
  const [eyes, none, all] = [count(notKnown), share(lowest), share(highest)];
  const isNone = eyes === 0 || none === null || all === null;
  return isNone ? {} : { open: { eyes, none, all, pick: "" } };
}

function isByCurve(own: FigureRecord): boolean {
  return own.headline_interval !== own.interval;
}

/** The curve where it was last read. */
function stillAttached(figures: FigureRecord): Measured | undefined {
  const at = lastLandmark(figures)?.at;
  if (at === undefined) return undefined;
  return {
    measures: "success",
    counted: "failed",
    short: "failed",
    success: {
      words: `were still attached at ${String(at)}`,
      heading: `still attached at ${String(at)}`,
    },
    failure: { words: `had failed by ${String(at)}`, heading: `failed by ${String(at)}` },
    shares: eachGroup(
      figures,
      (own) => ({
        events: count(own.failed),
        total: count(own.eyes),
        estimate: share(lastLandmark(own)?.attached),
        lower: share(lastLandmark(own)?.lower),
        upper: share(lastLandmark(own)?.upper),
        method: String(figures.interval ?? ""),
      }),
      (position) => [`t${position}:failed`, `t${position}`],
    ),
  };
}

function lastLandmark({ landmarks }: FigureRecord): FigureRecord | undefined {
  return (Array.isArray(landmarks) ? landmarks : []).at(-1) as FigureRecord | undefined;
}

function mendedAfterFailure(figures: FigureRecord): Measured {
  return {
    measures: "success",
    counted: "were attached without oil after a first failure",
    short: "attached without oil",
    success: { words: "were attached without oil", heading: "attached without oil" },
    failure: { words: "were not attached without oil", heading: "not attached without oil" },
    shares: eachGroup(
      { ...figures, groups: [] },
      (own) => ({
        events: count(own.attached),
        total: count(own.decided),
        estimate: share(own.rate),
        lower: share(own.lower),
        upper: share(own.upper),
        method: String(own.interval ?? "Wilson"),
      }),
      () => ["ended:attached", "ended:decided"],
    ),
  };
}

function gained(figures: FigureRecord): Measured {
  return {
    measures: "success",
    counted: "gained 0.3 logMAR (15 letters) or more",
    short: "gained",
    success: { words: "gained as much", heading: "gained 0.3 logMAR or more" },
    failure: { words: "did not", heading: "did not gain 0.3 logMAR" },
    shares: eachGroup(
      figures,
      (own) => ({
        events: count(own.gained),
        total: count(own.pairs),
        estimate: share(own.gained_rate),
        lower: share(own.gained_lower),
        upper: share(own.gained_upper),
        method: String(own.interval ?? "Wilson"),
      }),
      groupKeys("gained", "pairs"),
    ),
  };
}

function lost(figures: FigureRecord): Measured {
  return {
    measures: "failure",
    counted: "lost 0.3 logMAR (15 letters) or more",
    short: "lost",
    success: { words: "lost less or nothing", heading: "did not lose 0.3 logMAR" },
    failure: { words: "lost as much", heading: "lost 0.3 logMAR or more" },
    shares: eachGroup(
      figures,
      (own) => ({
        events: count(own.lost),
        total: count(own.pairs),
        estimate: share(own.lost_rate),
        lower: share(own.lost_lower),
        upper: share(own.lost_upper),
        method: String(own.interval ?? "Wilson"),
      }),
      groupKeys("lost", "pairs"),
    ),
  };
}

function count(figure: Figure | undefined): number {
  return typeof figure === "number" ? figure : 0;
}

function share(figure: Figure | undefined): number | null {
  return typeof figure === "number" ? figure : null;
}
