import { cusumRunLength, cusumSignalProbabilities } from "../../../statistics/cusum-run-length.ts";
import { riskAdjustedCusum } from "../../../statistics/risk-adjusted-cusum.ts";
import { limitSearch } from "./limit-search.ts";

/** One direction of the chart: the odds watched for, its limit, its path, and what it can tell. */
export interface WatchedDirection {
  readonly oddsRatio: number;
  /** At or beyond it the sum signals. */
  readonly limit: number;
  /** The sum after each operation, 0 or more in either direction. */
  readonly values: readonly number[];
  readonly signals: readonly CusumSignal[];
  /** Operations to a false signal on average, where the risks hold. */
  readonly runLengthInControl: number;
  /** Operations to a signal on average, where the odds have changed from the first on. */
  readonly runLengthChanged: number;
  /**
   * The probability of a false signal within so many operations as there are, the uncertainty of what
   * is expected allowed for.
   */
  readonly falseWithin: number;
  /** The probability of a signal within them if the odds had changed from the first on. */
  readonly noticedWithin: number;
}

/** A signal, and the run of operations since the sum last stood at 0. */
export interface CusumSignal {
  readonly position: number;
  readonly from: number;
}

export interface WatchedSeries {
  readonly failed: readonly boolean[];
  readonly risks: readonly number[];
  /** Positions from which the sum begins again at 0. */
  readonly resets: readonly number[];
  /** The in-control run length from which the limit is searched. */
  readonly runLength: number;
  /** The standard error of the expected log odds; 0 where they are taken from elsewhere. */
  readonly uncertainty: number;
}

/**
 * The risk-adjusted log-likelihood CUSUM (Steiner et al., Biostatistics 2000;1:441) with the limit that
 * has the stated in-control run length for this very mix of risks (Markov chain, Brook and Evans
 * 1972). The sum begins again at 0 after a signal and at a reset. Null where even the least limit
 * runs longer.
 */
export function watchedDirection(
  { failed, risks, resets, runLength, uncertainty }: WatchedSeries,
  oddsRatio: number,
): WatchedDirection | null {
  const mix = mixOf(risks);
  const found = limitSearch({ risks: mix, oddsRatio }, runLength);
  if (found === null) return null;
  const { limit } = found;
  const lengths = lengthsBetween(resets, risks.length);
  const operations = Math.max(0, ...lengths);
  const within = (actualOddsRatio: number): number => {
    const design = { risks: mix, oddsRatio, actualOddsRatio };
    const by = cusumSignalProbabilities(design, { limit, operations });
    return 1 - lengths.reduce((none, length) => none * (1 - (by[length - 1] ?? 0)), 1);
  };
  const { values, signals } = pathOf({ failed, risks, resets }, { oddsRatio, limit });
  return {
    oddsRatio,
    limit,
    values,
    signals: signals.map((position) => ({
      position,
      from: runFrom(position, { values, signals, resets }),
    })),
    runLengthInControl: found.runLength,
    runLengthChanged: cusumRunLength({ risks: mix, oddsRatio, actualOddsRatio: oddsRatio }, limit),
    falseWithin: overUncertainty(within, uncertainty),
    noticedWithin: within(oddsRatio),
  };
}

/** Nodes of a standard normal and their weights (Gauss-Hermite, five points). */
const normalNodes = [
  [0, 0.533333333333333],
  [1.35562617997427, 0.222075922005613],
  [2.85697001387281, 0.0112574113277207],
] as const;

/**
 * The mean of a probability over the odds ratios that the expected odds may truly be off by: where the
 * eyes of others happened to do well, everyone looks worse than expected.
 */
function overUncertainty(at: (oddsRatio: number) => number, uncertainty: number): number {
  if (uncertainty === 0) return at(1);
  return normalNodes.reduce((sum, [node, weight]) => {
    const shift = Math.exp(node * uncertainty);
    return sum + (node === 0 ? weight * at(1) : weight * (at(shift) + at(1 / shift)));
  }, 0);
}

/** Equal risks gathered, so that the chain has few kinds of steps. */
function mixOf(risks: readonly number[]) {
  const shares = new Map<number, number>();
  for (const risk of risks) shares.set(risk, (shares.get(risk) ?? 0) + 1);
  return [...shares].map(([risk, share]) => ({ risk, share }));
}

/** The numbers of operations from one beginning at 0 to the next. */
function lengthsBetween(resets: readonly number[], operations: number): number[] {
  const starts = [0, ...resets.filter((at) => at > 0 && at < operations)];
  return starts.map((start, i) => (starts[i + 1] ?? operations) - start);
}

function pathOf(
  { failed, risks, resets }: Omit<WatchedSeries, "runLength" | "uncertainty">,
  { oddsRatio, limit }: { readonly oddsRatio: number; readonly limit: number },
) {
  const values: number[] = [];
  const signals: number[] = [];
  let end = 0;
  lengthsBetween(resets, risks.length).forEach((length) => {
    const start = end;
    end = start + length;
    const part = riskAdjustedCusum({
      failed: failed.slice(start, end),
      risk: risks.slice(start, end),
      oddsRatio,
      limit,
    });
    values.push(...part.values.map(Math.abs));
    signals.push(...part.signals.map((position) => position + start));
  });
  return { values, signals };
}

/** The first operation since the sum last stood at 0, or began again. */
function runFrom(
  position: number,
  {
    values,
    signals,
    resets,
  }: { values: readonly number[]; signals: readonly number[]; resets: readonly number[] },
): number {
  let from = position;
  while (
    from > 0 &&
    (values[from - 1] ?? 0) > 0 &&
    !signals.includes(from - 1) &&
    !resets.includes(from)
  ) {
    from--;
  }
  return from;
}
