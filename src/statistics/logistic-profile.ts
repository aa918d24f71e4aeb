/**
 * Profile-likelihood limits of the coefficients of a logistic regression by maximum likelihood. They
 * are honest where Wald's are not: at few events, and on the finite side of a separated covariate.
 */
import { aboutMeans, atOrigin } from "./about-means.ts";
import { requireLevel } from "./argument-checks.ts";
import { type LogisticData, type LogisticInput, logisticData } from "./logistic-data.ts";
import { logisticLikelihood } from "./logistic-likelihood.ts";
import { type LogisticFit, logisticRegression } from "./logistic-regression.ts";
import { maximise } from "./newton.ts";
import { profileLimits } from "./profile-limits.ts";
import { cholesky, inverse } from "./symmetric-solve.ts";

export interface ProfiledCoefficient {
  readonly name: string;
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

/** The limits of each coefficient, the intercept's first; NaN for aliased covariates. */
export function logisticProfile(input: LogisticInput, level = 0.95): ProfiledCoefficient[] {
  requireLevel(level);
  const given = logisticData(input);
  const { centred, means } = aboutMeans(given);
  const names = given.names.slice(1);
  const fit = logisticRegression({ ...input, covariates: centred.columns.slice(1), names, level });
  const isUsed = (_: unknown, c: number) => !fit.aliased.includes(given.names[c]!);
  const isSeparated = fit.infinite.length > 0;
  const about = usedColumns(centred, isUsed);
  const home = isSeparated ? nearEnough(about) : estimatesOf(fit).filter(isUsed);
  const usedMeans = means.filter(isUsed);
  const search = { logLikelihood: fit.logLikelihood, isSeparated, level };
  const there = { data: usedColumns(given, isUsed), home: atOrigin(home, usedMeans) };
  let next = 0;
  return fit.coefficients.map(({ name, estimate }) => {
    if (Number.isNaN(estimate)) return { name, estimate, lower: Number.NaN, upper: Number.NaN };
    const c = next++;
    // the intercept from the likelihood at the origin, the others from that about the means
    const limits = limitsOf(c, c === 0 ? there : { data: about, home }, search);
    const atHome = c === 0 ? atOrigin(estimatesOf(fit).filter(isUsed), usedMeans)[0]! : estimate;
    return { name, estimate: atHome, ...limits };
  });
}

/** A likelihood and the coefficients at which it is (nearly) highest. */
interface Summit {
  readonly data: LogisticData;
  readonly home: Float64Array;
}

function limitsOf(
  c: number,
  { data, home }: Summit,
  search: { logLikelihood: number; isSeparated: boolean; level: number },
): { lower: number; upper: number } {
  const { logLikelihood, isSeparated, level } = search;
  const covariance = inverse(cholesky(logisticLikelihood(data, home).information, 1e-14));
  const own = Math.sqrt(covariance[c * home.length + c]!);
  const unit = isSeparated ? spreadOf(data, c) : own;
  const at = profileOf(c, { data, home }, covariance);
  return profileLimits({ estimate: home[c]!, unit, logLikelihood, at }, level);
}

/** A unit to search by where errors mean nothing: a covariate's spread, the way to it for the intercept. */
function spreadOf({ columns, spread, rows }: LogisticData, c: number): number {
  if (c > 0) return 1 / spread[c]!;
  const far = columns.map((column, k) =>
    k === 0 ? 1 : column.reduce((sum, x) => sum + x, 0) / rows / spread[k]!,
  );
  return Math.hypot(...far);
}

function usedColumns(data: LogisticData, isUsed: (_: unknown, c: number) => boolean): LogisticData {
  return { ...data, columns: data.columns.filter(isUsed), spread: data.spread.filter(isUsed) };
}

function estimatesOf({ coefficients }: LogisticFit): Float64Array {
  return Float64Array.from(coefficients, ({ estimate }) => estimate);
}

/**
 * Where the likelihood rises for ever, coefficients at which it has nearly all of its height: the place
 * to search from, since those at which the fit gave up are far out.
 */
function nearEnough(data: LogisticData): Float64Array {
  const evaluate = (b: Float64Array) => logisticLikelihood(data, b);
  return maximise(evaluate, { spread: data.spread, mostIterations: 8 }).coefficients;
}

/**
 * The log-likelihood with one coefficient held, as an offset. Each fit starts from the last, moved along
 * the line on which the others follow the one that is held; where that is too far for Newton's method,
 * from the others of `home` or from 0, whichever comes higher.
 */
function profileOf(
  c: number,
  { data, home }: Summit,
  covariance: Float64Array,
): (value: number) => number {
  const isOther = (_: unknown, k: number) => k !== c;
  const rest = {
    ...data,
    columns: data.columns.filter(isOther),
    spread: data.spread.filter(isOther),
  };
  const { spread } = rest;
  const others = home.filter(isOther);
  const own = covariance[c * home.length + c]!;
  const along = home.map((_, k) => covariance[c * home.length + k]! / own).filter(isOther);
  let last = { value: home[c]!, others };
  return (value) => {
    const offset = data.offset.map((known, i) => known + value * data.columns[c]![i]!);
    const evaluate = (b: Float64Array) => logisticLikelihood({ ...rest, offset }, b);
    const moved = last.others.map((b, k) => b + (value - last.value) * along[k]!);
    let best = maximise(evaluate, { spread, start: moved });
    for (const start of best.converged ? [] : [others, new Float64Array(spread.length)]) {
      const other = maximise(evaluate, { spread, start });
      if (other.evaluation.logLikelihood > best.evaluation.logLikelihood) best = other;
    }
    last = { value, others: Float64Array.from(best.coefficients) };
    return best.evaluation.logLikelihood;
  };
}
