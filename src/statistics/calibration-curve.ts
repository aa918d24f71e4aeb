/**
 * A smooth calibration curve: the share that had the event, as a function of the predicted probability.
 *
 * At each probability p a straight line is fitted by least squares to the outcomes of the nearest `span`
 * of all rows, each weighted by (1 - (d / h)^3)^3, d its distance from p and h that of the farthest of
 * them, and read at p (local linear regression: Cleveland, Journal of the American Statistical Association
 * 1979;74:829, without the later rounds that take weight from outliers, since an outcome of 0 or 1 is
 * none; for calibration: Austin and Steyerberg, Statistics in Medicine 2014;33:517). Where neighbours
 * lie within a thousandth of the whole range of p the line has no slope to be had, and is their mean.
 *
 * A line may leave [0, 1]; the curve is kept within. It has no limits: with few events much of its shape
 * is chance, and groups with intervals (`hosmer-lemeshow.ts`) say more.
 */
import { readPredictions } from "./calibration.ts";
import { sampleQuantile } from "./sample-quantile.ts";

export interface CalibrationCurve {
  /** Ascending, each once. */
  readonly predicted: Float64Array;
  /** The smoothed share with the event there. */
  readonly observed: Float64Array;
}

/** Beyond so many distinct predictions the curve is read at their quantiles. */
const MOST_POINTS = 201;

/** The curve at the distinct predicted probabilities, or at 201 quantiles of them; null for no rows. */
export function calibrationCurve(
  outcome: ArrayLike<number | boolean>,
  probability: ArrayLike<number>,
  { span = 2 / 3 }: { readonly span?: number } = {},
): CalibrationCurve | null {
  if (!(span > 0 && span <= 1)) {
    throw new RangeError(`the span is ${span}; expected a share above 0 up to 1`);
  }
  const { events, rows } = readPredictions(outcome, probability);
  if (rows === 0) return null;
  const near = Math.min(rows, Math.max(2, Math.floor(span * rows + 1e-7)));
  const order = Array.from(events.keys()).sort((a, b) => probability[a]! - probability[b]!);
  const sorted = {
    x: Float64Array.from(order, (row) => probability[row]!),
    y: Float64Array.from(order, (row) => events[row]!),
  };
  const predicted = pointsOf(sorted.x);
  const observed = smoothed(sorted, { predicted, near });
  return { predicted, observed: observed.map((share) => Math.min(1, Math.max(0, share))) };
}

function pointsOf(x: Float64Array): Float64Array {
  const distinct = x.filter((value, i) => i === 0 || value > x[i - 1]!);
  if (distinct.length <= MOST_POINTS) return distinct;
  return Float64Array.from({ length: MOST_POINTS }, (_, i) => {
    return sampleQuantile(distinct, i / (MOST_POINTS - 1))!;
  });
}

interface Sorted {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** The line at each point; the nearest rows are a run that moves up with the points. */
function smoothed(
  sorted: Sorted,
  { predicted, near }: { predicted: Float64Array; near: number },
): Float64Array {
  const { x } = sorted;
  let from = 0;
  return predicted.map((at) => {
    while (from + near < x.length && at - x[from]! > x[from + near]! - at) from++;
    const reach = Math.max(at - x[from]!, x[from + near - 1]! - at);
    return lineAt(sorted, { at, from, reach });
  });
}

function lineAt(
  { x, y }: Sorted,
  { at, from, reach }: { at: number; from: number; reach: number },
): number {
  let [weights, byX, byY, byXX, byXY] = [0, 0, 0, 0, 0];
  for (let i = from; i < x.length && x[i]! <= at + reach; i++) {
    const distance = x[i]! - at;
    const weight = reach === 0 ? 1 : (1 - Math.abs(distance / reach) ** 3) ** 3;
    weights += weight;
    byX += weight * distance;
    byY += weight * y[i]!;
    byXX += weight * distance * distance;
    byXY += weight * distance * y[i]!;
  }
  const [meanX, meanY] = [byX / weights, byY / weights];
  const variance = Math.max(0, byXX / weights - meanX * meanX);
  const isLevel = Math.sqrt(variance) <= 0.001 * (x.at(-1)! - x[0]!);
  return isLevel ? meanY : meanY - (meanX * (byXY / weights - meanX * meanY)) / variance;
}
