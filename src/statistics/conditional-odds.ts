/**
 * The distribution of the failures of the first group given all margins, at any odds ratio:
 * Fisher's non-central hypergeometric distribution, alone or summed over strata.
 *
 * P(k) is proportional to h(k) psi^k, with h the central hypergeometric probabilities (Fisher
 * 1935). Over strata the h are convolved (Gart 1970). Everything is kept as logarithms.
 */
import { hypergeometricLogProbability } from "./distributions.ts";
import { findRoot } from "./find-root.ts";
import { cellsOf, type TwoByTwo } from "./two-by-two.ts";

/** ln h(k) for k = least, least + 1, ... and the k that was observed. */
export interface ConditionalTable {
  readonly least: number;
  readonly logWeights: Float64Array;
  readonly observed: number;
}

/** The conditional distribution of one table. */
export function conditionalTable(table: TwoByTwo): ConditionalTable {
  const { firstFailed, firstHeld, secondFailed, total } = cellsOf(table);
  const draws = firstFailed + firstHeld;
  const marked = firstFailed + secondFailed;
  const least = Math.max(0, draws + marked - total);
  const most = Math.min(draws, marked);
  const logWeights = new Float64Array(most - least + 1);
  for (let k = least; k <= most && most > least; k++) {
    logWeights[k - least] = hypergeometricLogProbability(k, { total, marked, draws });
  }
  return { least, logWeights, observed: firstFailed };
}

/** Probabilities at odds ratio exp(logOdds), summing to 1. */
export function probabilitiesAt(table: ConditionalTable, logOdds: number): Float64Array {
  const tilted = table.logWeights.map((weight, k) => weight + k * logOdds);
  const largest = tilted.reduce((a, b) => Math.max(a, b), -Infinity);
  const shares = tilted.map((weight) => Math.exp(weight - largest));
  const sum = shares.reduce((a, b) => a + b, 0);
  return shares.map((share) => share / sum);
}

/** The conditional maximum likelihood estimate: the odds ratio whose mean is the observed count. */
export function conditionalEstimate(table: ConditionalTable): number {
  const { least, logWeights, observed } = table;
  const last = logWeights.length - 1;
  if (last === 0) return Number.NaN;
  if (observed === least) return 0;
  if (observed === least + last) return Infinity;
  const excess = (logOdds: number) =>
    probabilitiesAt(table, logOdds).reduce((sum, p, k) => sum + p * k, least - observed);
  return Math.exp(findRoot(excess, { from: -60, to: 60 }));
}

/** Exact limits: the odds ratios at which each tail including the observed has `tail`. */
export function conditionalLimits(
  table: ConditionalTable,
  tail: number,
): { lower: number; upper: number } {
  const { least, logWeights, observed } = table;
  const limit = (side: "upper" | "lower") =>
    Math.exp(
      findRoot((logOdds) => Math.log(tailAt(table, logOdds, side)) - Math.log(tail), {
        from: -60,
        to: 60,
      }),
    );
  const isLeast = observed === least;
  const isMost = observed === least + logWeights.length - 1;
  return { lower: isLeast ? 0 : limit("upper"), upper: isMost ? Infinity : limit("lower") };
}

/** P(X >= observed) ("upper") or P(X <= observed) ("lower") at an odds ratio. */
export function tailAt(table: ConditionalTable, logOdds: number, side: "upper" | "lower"): number {
  const observed = table.observed - table.least;
  const isInTail = (k: number) => (side === "upper" ? k >= observed : k <= observed);
  return probabilitiesAt(table, logOdds).reduce((sum, p, k) => (isInTail(k) ? sum + p : sum), 0);
}

/** The distribution of the sum over strata. */
export function convolve(tables: readonly ConditionalTable[]): ConditionalTable {
  return tables.reduce(convolvePair, { least: 0, logWeights: Float64Array.of(0), observed: 0 });
}

function convolvePair(one: ConditionalTable, two: ConditionalTable): ConditionalTable {
  const logWeights = logConvolution(one.logWeights, two.logWeights);
  return { least: one.least + two.least, logWeights, observed: one.observed + two.observed };
}

/** Terms this much smaller than the largest, as logarithms, add nothing. */
const NEGLIGIBLE = 45;

/**
 * The logarithms of the convolution of two log-concave sequences, so that weights too small for double
 * precision are kept. The terms of each sum then have a single peak, which moves on with k; they are added
 * from there outwards.
 */
function logConvolution(a: Float64Array, b: Float64Array): Float64Array {
  let peak = 0;
  return Float64Array.from({ length: a.length + b.length - 1 }, (_, k) => {
    const from = Math.max(0, k - b.length + 1);
    const to = Math.min(k, a.length - 1);
    const term = (i: number) => a[i]! + b[k - i]!;
    peak = Math.min(to, Math.max(from, peak));
    while (peak < to && term(peak + 1) >= term(peak)) peak++;
    const most = term(peak);
    let sum = 0;
    for (let i = peak; i >= from && term(i) > most - NEGLIGIBLE; i--)
      sum += Math.exp(term(i) - most);
    for (let i = peak + 1; i <= to && term(i) > most - NEGLIGIBLE; i++)
      sum += Math.exp(term(i) - most);
    return most + Math.log(sum);
  });
}
