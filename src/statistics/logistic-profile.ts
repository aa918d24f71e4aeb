/**
 * Profile-likelihood limits of the coefficients of a logistic regression by maximum likelihood. They
 * are honest where Wald's are not: at few events, and on the finite side of a separated covariate.
 */
import { requireLevel } from "./argument-checks.ts";
import { type LogisticData, type LogisticInput, logisticData } from "./logistic-data.ts";
import { logisticLikelihood } from "./logistic-likelihood.ts";
import { type LogisticFit, logisticRegression } from "./logistic-regression.ts";
import { maximise } from "./newton.ts";
import { profileLimits } from "./profile-limits.ts";

export interface ProfiledCoefficient {
  readonly name: string;
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

/** The limits of each coefficient, the intercept's first; NaN for aliased covariates. */
export function logisticProfile(input: LogisticInput, level = 0.95): ProfiledCoefficient[] {
  requireLevel(level);
  const fit = logisticRegression({ ...input, level });
  const all = logisticData(input);
  const isUsed = (_: unknown, c: number) => !fit.aliased.includes(all.names[c]!);
  const data = { ...all, columns: all.columns.filter(isUsed), spread: all.spread.filter(isUsed) };
  const isSeparated = fit.infinite.length > 0;
  const home = isSeparated ? nearEnough(data) : estimatesOf(fit).filter(isUsed);
  let next = 0;
  return fit.coefficients.map(({ name, estimate, standardError }) => {
    if (Number.isNaN(estimate)) return { name, estimate, lower: Number.NaN, upper: Number.NaN };
    const c = next++;
    const unit = isSeparated ? 1 / data.spread[c]! : standardError;
    const profile = { estimate: home[c]!, unit, at: profileOf(data, c, home) };
    return {
      name,
      estimate,
      ...profileLimits({ ...profile, logLikelihood: fit.logLikelihood }, level),
    };
  });
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
 * The log-likelihood with one coefficient held, as an offset. Each fit starts from the last; where that is
 * too far for Newton's method, from the others of `home` or from 0, whichever comes higher.
 */
function profileOf(data: LogisticData, c: number, home: Float64Array): (value: number) => number {
  const isOther = (_: unknown, k: number) => k !== c;
  const rest = {
    ...data,
    columns: data.columns.filter(isOther),
    spread: data.spread.filter(isOther),
  };
  const { spread } = rest;
  const others = home.filter(isOther);
  let last = others;
  return (value) => {
    const offset = data.offset.map((known, i) => known + value * data.columns[c]![i]!);
    const evaluate = (b: Float64Array) => logisticLikelihood({ ...rest, offset }, b);
    let best = maximise(evaluate, { spread, start: last });
    for (const start of best.converged ? [] : [others, new Float64Array(spread.length)]) {
      const other = maximise(evaluate, { spread, start });
      if (other.evaluation.logLikelihood > best.evaluation.logLikelihood) best = other;
    }
    last = Float64Array.from(best.coefficients);
    return best.evaluation.logLikelihood;
  };
}
