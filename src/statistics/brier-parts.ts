/**
 * The Brier score taken apart into what a prediction owes to calibration, to telling rows apart, and to
 * the outcome itself (Murphy, Journal of Applied Meteorology 1973;12:595).
 *
 * With n_k of n rows in group k, mean prediction p_k, share with the event o_k, and o overall:
 *   score = reliability - resolution + uncertainty + within
 *   reliability = sum n_k (p_k - o_k)^2 / n        0 when calibrated
 *   resolution  = sum n_k (o_k - o)^2 / n          0 when every group has the same share
 *   uncertainty = o (1 - o)
 *   within      = sum [(p - p_k)^2 - 2 (p - p_k)(y - o_k)] / n over all rows
 * the last for predictions that differ within a group (Stephenson, Coelho and Jolliffe, Weather and
 * Forecasting 2008;23:752); it is 0 when each distinct prediction is a group of its own.
 */
import { readPredictions } from "./calibration.ts";
import { codeGroups } from "./group-codes.ts";
import { groupsOfRisk } from "./risk-groups.ts";

export interface BrierParts {
  readonly score: number;
  readonly reliability: number;
  readonly resolution: number;
  readonly uncertainty: number;
  readonly within: number;
  readonly groups: number;
}

/**
 * The parts over `groups` of equal size (`risk-groups.ts`), or over the distinct predictions unless
 * groups are asked for; null for no rows.
 */
export function brierParts(
  outcome: ArrayLike<number | boolean>,
  probability: ArrayLike<number>,
  { groups }: { readonly groups?: number } = {},
): BrierParts | null {
  const { events, rows } = readPredictions(outcome, probability);
  const { codes, count } = groupsFor(probability, groups);
  if (rows === 0) return null;
  const { size, predicted, observed } = meansOf(codes, { count, events, probability });
  const overall = mean(events);
  const over = (value: (group: number) => number) =>
    size.reduce((sum, n, g) => sum + n * value(g), 0) / rows;
  const within = events.reduce((sum, y, row) => {
    const g = codes[row]!;
    const distance = probability[row]! - predicted[g]!;
    return sum + distance ** 2 - 2 * distance * (y - observed[g]!);
  }, 0);
  return {
    score: events.reduce((sum, y, row) => sum + (y - probability[row]!) ** 2, 0) / rows,
    reliability: over((g) => (predicted[g]! - observed[g]!) ** 2),
    resolution: over((g) => (observed[g]! - overall) ** 2),
    uncertainty: overall * (1 - overall),
    within: within / rows,
    groups: count,
  };
}

function groupsFor(probability: ArrayLike<number>, groups: number | undefined) {
  if (groups === undefined) {
    const { labels, codes } = codeGroups(probability);
    return { codes, count: labels.length };
  }
  const { upTo, codes } = groupsOfRisk(probability, groups);
  return { codes, count: upTo.length };
}

/** By group, its rows, its mean prediction and the share of it that had the event. */
function meansOf(
  codes: Int32Array,
  rows: { count: number; events: Float64Array; probability: ArrayLike<number> },
) {
  const { count, events, probability } = rows;
  const [size, sumOfP, sumOfY] = [0, 1, 2].map(() => new Float64Array(count));
  codes.forEach((g, row) => {
    size![g] = size![g]! + 1;
    sumOfP![g] = sumOfP![g]! + probability[row]!;
    sumOfY![g] = sumOfY![g]! + events[row]!;
  });
  const shared = (sums: Float64Array) => sums.map((sum, g) => sum / size![g]!);
  return { size: size!, predicted: shared(sumOfP!), observed: shared(sumOfY!) };
}

function mean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
