import type { Sentence } from "../../answer.ts";
import { capitalised, counted, listed, percentRange, pValue } from "../../answering/wording.ts";
import { boundsText, shareText } from "../pooled-answer.ts";
import { knownBounds, sumOf } from "../pooled-counts.ts";
import { leadingRate, type PooledRate } from "./rate-over.ts";

/** What a rate over departments is said from. */
export interface PooledRateParts {
  readonly total: PooledRate;
  /** By the column asked for; none without one. */
  readonly groups: readonly PooledRate[];
  /** "technique". */
  readonly column: string;
  readonly departments: number;
  /** "redetachment within 12 months". */
  readonly definition: string;
}

/** The rate that leads, the share of those known beside it with its bounds, and the groups. */
export function pooledRateSentence(parts: PooledRateParts): Sentence {
  const { total, departments, definition } = parts;
  const { parts: all } = total.group;
  const failed = boundsText(sumOf(all, "failed"));
  return [
    `Over ${counted(departments, "department")} and ${boundsText(sumOf(all, "eyes"))} eyes, `,
    { text: `${failed} failed`, role: "failed" },
    ` (${definition})${leadingWords(total)}.`,
    knownWords(total),
    apartWords(total),
    groupWords(parts),
  ];
}

function leadingWords(rate: PooledRate): string {
  const leading = leadingRate(rate);
  if (leading === null) return "";
  const { lowest, highest, method, isByCurve } = leading;
  const how = isByCurve ? "by the curve " : "";
  return `: ${how}${shareText(lowest, highest)} (95% ${method} interval ${percentRange(leading)})`;
}

/** The share of those known, which runs high, and what the others could make of the rate. */
function knownWords(rate: PooledRate): string {
  const { group, lowest, highest, interval } = rate;
  const unknown = sumOf(group.parts, "unknown");
  if (unknown.most === 0) return "";
  const known = boundsText(knownOf(rate));
  const limits =
    interval === null ? "" : `, 95% ${interval.method} interval ${percentRange(interval)}`;
  const { ifNoneFailed, ifAllFailed } = ifOthers(rate);
  return ` The outcome at the window's end is known for ${known} eyes, of which ${shareText(lowest, highest)} failed${limits}; if none of the others had failed the rate would be ${shareText(...ifNoneFailed)}, if all had, ${shareText(...ifAllFailed)}.`;
}

/** The eyes whose outcome is known. */
export function knownOf({ group: { parts } }: PooledRate) {
  const known = parts.map(knownBounds);
  return {
    least: known.reduce((sum, { least }) => sum + least, 0),
    most: known.reduce((sum, { most }) => sum + most, 0),
  };
}

type Bounds = readonly [number | null, number | null];

/** The rate if none, and if all, of the eyes not known had failed. */
export function ifOthers({ group: { parts } }: PooledRate): {
  readonly ifNoneFailed: Bounds;
  readonly ifAllFailed: Bounds;
} {
  const [eyes, failed, held] = [sumOf(parts, "eyes"), sumOf(parts, "failed"), sumOf(parts, "held")];
  const share = (count: number, of: number) =>
    of === 0 ? null : Math.min(1, Math.max(0, count / of));
  return {
    ifNoneFailed: [share(failed.least, eyes.most), share(failed.most, eyes.least)],
    ifAllFailed: [
      share(eyes.least - held.most, eyes.least),
      share(eyes.most - held.least, eyes.most),
    ],
  };
}

function apartWords(rate: PooledRate): string {
  const text = heterogeneityText(rate);
  return text === undefined
    ? " Whether departments differ cannot be tested."
    : ` Between departments, among those known, ${text}.`;
}

/** "p = 0.03, I² 71%"; undefined where it cannot be tested. */
export function heterogeneityText({ heterogeneity }: PooledRate): string | undefined {
  if (heterogeneity === null) return undefined;
  return `${pValue(heterogeneity.p)}, I² ${(100 * heterogeneity.iSquared).toFixed(0)}%`;
}

const mostNamed = 4;

/** The groups with the most eyes, in the order of the table. */
function groupWords({ groups, column }: PooledRateParts): string {
  const least = ({ group }: PooledRate) => sumOf(group.parts, "eyes").least;
  const largest = [...groups].sort((a, b) => least(b) - least(a)).slice(0, mostNamed);
  const named = groups.filter((rate) => largest.includes(rate)).flatMap(groupText);
  if (named.length === 0) return "";
  const others = groups.length > named.length ? "; the others stand in the table" : "";
  return ` ${capitalised(`by ${column.replaceAll("_", " ")}`)}: ${listed(named)}${others}.`;
}

function groupText(rate: PooledRate): string[] {
  const leading = leadingRate(rate);
  if (leading === null) return [];
  const share = shareText(leading.lowest, leading.highest);
  return [`${rate.label} ${share} (95% interval ${percentRange(leading)})`];
}
