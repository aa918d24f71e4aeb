/**
 * Profile-likelihood limits of the coefficients of a logistic regression by maximum likelihood. They
 * are honest where Wald's are not: at few events, and on the finite side of a separated covariate.
 */
import { requireLevel } from "./argument-checks.ts";
import { type LogisticData, type LogisticInput, logisticData } from "./logistic-data.ts";
import { logisticLikelihood } from "./logistic-likelihood.ts";
import { logisticRegression } from "./logistic-regression.ts";
import { maximise } from "./newton.ts";
import { profileLimits } from "./profile-limits.ts";
import type { Coefficient } from "./regression-table.ts";

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
  return fit.coefficients.map((coefficient, c) => {
    const { name, estimate } = coefficient;
    if (Number.isNaN(estimate)) return { name, estimate, lower: Number.NaN, upper: Number.NaN };
    const others = all.columns.filter((column, k) => k !== c && isUsed(column, k));
    const spread = all.spread.filter((value, k) => k !== c && isUsed(value, k));
    const rest = { ...all, columns: others, spread };
    const at = (value: number) => heldAt(rest, all.columns[c]!, value);
    const unit = unitOf(coefficient, {
      spread: all.spread[c]!,
      isInfinite: fit.infinite.includes(name),
    });
    const limits = profileLimits({ estimate, unit, logLikelihood: fit.logLikelihood, at }, level);
    return { name, estimate, ...limits };
  });
}

/** The log-likelihood with one coefficient held, as an offset. */
function heldAt(rest: LogisticData, column: Float64Array, value: number): number {
  const offset = rest.offset.map((known, i) => known + value * column[i]!);
  const held = { ...rest, offset };
  return maximise((b) => logisticLikelihood(held, b), { spread: rest.spread }).evaluation
    .logLikelihood;
}

function unitOf(
  { standardError }: Coefficient,
  { spread, isInfinite }: { spread: number; isInfinite: boolean },
): number {
  return isInfinite ? 1 / spread : standardError;
}
