import type { RateIntervals } from "../../../charts/rate-intervals.ts";
import type { AnswerCell, AnswerTable, FigureRecord } from "../../answer.ts";
import { splitOf } from "../../answering/grouping.ts";
import {
  type BoundedShare,
  boundsCell,
  boundsText,
  isOneValue,
  shareCell,
} from "../pooled-answer.ts";
import { sumOf } from "../pooled-counts.ts";
import {
  heterogeneityText,
  ifOthers,
  knownOf,
  type PooledRateParts,
} from "./pooled-rate-sentence.ts";
import { leadingRate, type PooledRate } from "./rate-over.ts";

/** A row a group and one for all eyes; what leads stands before the share of those known. */
export function pooledRateTable({ groups, total, column }: PooledRateParts): AnswerTable {
  const window = total.group.parts[0]?.file.definition.window ?? "the window's end";
  return {
    columns: [
      { label: column === "" ? "eyes" : column.replaceAll("_", " "), kind: "text" },
      { label: "all eyes", kind: "number" },
      { label: "failed", kind: "number" },
      { label: `failed by ${window} (95%)`, kind: "estimate" },
      { label: "outcome known", kind: "number" },
      { label: "failed of known (95%)", kind: "estimate" },
      { label: "not known", kind: "number" },
      { label: "between departments", kind: "text" },
    ],
    rows: [...groups, total].map(rowOf),
  };
}

function rowOf(rate: PooledRate): AnswerCell[] {
  const { label, group, lowest, highest, interval, heterogeneity } = rate;
  return [
    { text: label, value: label },
    boundsCell(sumOf(group.parts, "eyes")),
    boundsCell(sumOf(group.parts, "failed")),
    shareCell(leadingRate(rate)),
    boundsCell(knownOf(rate)),
    shareCell(
      lowest === null || highest === null || interval === null
        ? null
        : { ...interval, lowest, highest },
    ),
    boundsCell(sumOf(group.parts, "unknown")),
    { text: heterogeneityText(rate) ?? "–", value: heterogeneity?.p ?? null },
  ];
}

/** The rates that lead; of one that has bounds, their middle. */
export function drawnRates({ groups, total, column }: PooledRateParts): RateIntervals {
  const rows = [...groups, total].map(drawnRate);
  return { tone: "failed", counted: "failed", rows, ...splitOf({ label: column }) };
}

function drawnRate(rate: PooledRate): RateIntervals["rows"][number] {
  const leading = leadingRate(rate);
  const { parts } = rate.group;
  const isOne = leading === null || isOneValue(leading);
  return {
    label: isOne ? rate.label : `${rate.label} (middle of its bounds)`,
    events: sumOf(parts, "failed").least,
    total: sumOf(parts, "eyes").least,
    rate: leading === null ? null : (leading.lowest + leading.highest) / 2,
    lower: leading?.lower ?? null,
    upper: leading?.upper ?? null,
  };
}

export function pooledRateFigures({ groups, total, column }: PooledRateParts): FigureRecord {
  const { parts } = total.group;
  const headline = `${boundsText(sumOf(parts, "failed"))} of ${boundsText(sumOf(parts, "eyes"))}`;
  return {
    ...figuresOf(total),
    headline,
    ...(column === ""
      ? {}
      : { groups: groups.map((rate) => ({ group: rate.label, ...figuresOf(rate) })) }),
  };
}

/** Null where counts are withheld. */
function oneValue(share: Pick<BoundedShare, "lowest" | "highest">): number | null {
  return isOneValue(share) ? share.lowest : null;
}

function figuresOf(rate: PooledRate): FigureRecord {
  const { group, lowest, highest, interval, curve, heterogeneity } = rate;
  const leading = leadingRate(rate);
  const { ifNoneFailed, ifAllFailed } = ifOthers(rate);
  return {
    headline_rate: leading === null ? null : oneValue(leading),
    headline_lower: leading?.lower ?? null,
    headline_upper: leading?.upper ?? null,
    headline_interval: leading?.method ?? null,
    rate: lowest === null || highest === null ? null : oneValue({ lowest, highest }),
    ...{ lowest, highest },
    lower: interval?.lower ?? null,
    upper: interval?.upper ?? null,
    interval: interval?.method ?? null,
    curve_lowest: curve?.lowest ?? null,
    curve_highest: curve?.highest ?? null,
    curve_lower: curve?.lower ?? null,
    curve_upper: curve?.upper ?? null,
    if_none_failed: ifNoneFailed[0],
    if_all_failed: ifAllFailed[1],
    failed_least: sumOf(group.parts, "failed").least,
    failed_most: sumOf(group.parts, "failed").most,
    eyes: sumOf(group.parts, "eyes").least,
    heterogeneity_p: heterogeneity?.p ?? null,
    i_squared: heterogeneity?.iSquared ?? null,
  };
}
