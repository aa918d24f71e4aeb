/**
 * The beta-binomial model of units' failure rates, by maximum likelihood.
 *
 * True rates follow a beta distribution with mean mu and shapes alpha = mu / theta, beta = (1 -
 * mu) / theta; the intra-class correlation is theta / (1 + theta). In mu and theta
 *   ln L = sum over units of [sum_{j<x} ln(mu + j theta) + sum_{j<n-x} ln(1 - mu + j theta)
 *          - sum_{j<n} ln(1 + j theta)] + sum ln C(n, x)
 * (Griffiths, Biometrics 1973;29:637), which at theta = 0 is the binomial one. With a few units of
 * very unlike sizes it can have more than one top over theta; the highest is taken. Where that is at
 * theta = 0, units differ no more than by chance. Twice the rise over the binomial likelihood is
 * tested as half a chi-square on 1 degree, theta = 0 lying on the boundary (Self and Liang 1987).
 *
 * Of ten units that do not differ the test at 5% is wrong in 1 to 3%, in 6% at most (counted in the
 * tables of real coverage among the tests).
 */
import { requirePartOfWhole } from "./argument-checks.ts";
import { chiSquareUpperTail } from "./distributions.ts";
import { findRoot } from "./find-root.ts";
import { logChoose } from "./log-gamma.ts";
import type { Part } from "./two-by-two.ts";

export interface BetaBinomial {
  readonly mean: number;
  /** The correlation of eyes within a unit, 0 when units differ no more than by chance. */
  readonly intraclass: number;
  /** The shapes of the distribution of true rates; Infinity when `intraclass` is 0. */
  readonly alpha: number;
  readonly beta: number;
}

export interface BetaBinomialFit extends BetaBinomial {
  readonly logLikelihood: number;
  readonly binomialLogLikelihood: number;
  /** Of the test that units do not differ. */
  readonly pValue: number;
}

/** The model with mean `mean` and 1 / (alpha + beta) = `theta`, 0 or more. */
export function modelOf(mean: number, theta: number): BetaBinomial {
  return { mean, intraclass: theta / (1 + theta), alpha: mean / theta, beta: (1 - mean) / theta };
}

/**
 * The fit; units without eyes take no part. Null, not estimable, where nobody or everybody
 * failed, and where every unit failed in all its eyes or in none, so that theta has no end.
 */
export function fitBetaBinomial(units: readonly Part[]): BetaBinomialFit | null {
  for (const { failed, total } of units) requirePartOfWhole(failed, total);
  const used = units.filter((unit) => unit.total > 0);
  const failed = used.reduce((sum, unit) => sum + unit.failed, 0);
  const total = used.reduce((sum, unit) => sum + unit.total, 0);
  if (failed === 0 || failed === total) return null;
  const theta = bestTheta(used, failed / total);
  if (theta === null) return null;
  const mean = theta === 0 ? failed / total : bestMean(used, theta);
  const binomialLogLikelihood = logLikelihood(used, failed / total, 0);
  const reached = theta === 0 ? binomialLogLikelihood : logLikelihood(used, mean, theta);
  const rise = Math.max(0, 2 * (reached - binomialLogLikelihood));
  const pValue = rise === 0 ? 1 : chiSquareUpperTail(rise, 1) / 2;
  return { ...modelOf(mean, theta), logLikelihood: reached, binomialLogLikelihood, pValue };
}

/** Where the profile over theta is looked at: 0, then from 2^-10 to 2^24 by the power of 4. */
const thetas = [0, ...Array.from({ length: 18 }, (_, k) => 2 ** (2 * k - 10))];

/** The theta at the highest top of the profile; null when it rises for ever. */
function bestTheta(units: readonly Part[], share: number): number | null {
  const slope = (theta: number) => slopeInTheta(units, bestMean(units, theta), theta);
  // a slope of 0 at 0: units of one eye each say nothing about theta
  const atZero = slopeInTheta(units, share, 0);
  const isRising = thetas.map((theta) => (theta === 0 ? atZero > 1e-9 : slope(theta) > 0));
  if (isRising.at(-1)) return null;
  const tops = thetas.flatMap((from, k) => {
    if (k === 0 && !isRising[0]) return [0];
    const isTop = isRising[k] && isRising[k + 1] === false;
    return isTop ? [findRoot(slope, { from, to: thetas[k + 1]! })] : [];
  });
  const heights = tops.map((theta) => logLikelihood(units, bestMean(units, theta), theta));
  return tops[heights.indexOf(Math.max(...heights))]!;
}

/** The mean that maximises the likelihood at a theta; its slope falls all the way. */
function bestMean(units: readonly Part[], theta: number): number {
  const slope = (mean: number) =>
    sumOver(units, ({ failed, total }) => {
      const up = sumTerms(failed, (j) => 1 / (mean + j * theta));
      return up - sumTerms(total - failed, (j) => 1 / (1 - mean + j * theta));
    });
  return findRoot(slope, { from: 1e-12, to: 1 - 1e-12 });
}

function slopeInTheta(units: readonly Part[], mean: number, theta: number): number {
  return sumOver(units, ({ failed, total }) => {
    const up = sumTerms(failed, (j) => j / (mean + j * theta));
    const held = sumTerms(total - failed, (j) => j / (1 - mean + j * theta));
    return up + held - sumTerms(total, (j) => j / (1 + j * theta));
  });
}

function logLikelihood(units: readonly Part[], mean: number, theta: number): number {
  return sumOver(units, ({ failed, total }) => {
    const up = sumTerms(failed, (j) => Math.log(mean + j * theta));
    const held = sumTerms(total - failed, (j) => Math.log(1 - mean + j * theta));
    return logChoose(total, failed) + up + held - sumTerms(total, (j) => Math.log1p(j * theta));
  });
}

function sumOver(units: readonly Part[], value: (unit: Part) => number): number {
  return units.reduce((sum, unit) => sum + value(unit), 0);
}

function sumTerms(count: number, term: (j: number) => number): number {
  let sum = 0;
  for (let j = 0; j < count; j++) sum += term(j);
  return sum;
}
