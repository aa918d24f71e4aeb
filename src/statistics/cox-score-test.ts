/**
 * The score test of a Cox model that every coefficient is 0: the slope of the log partial likelihood there, U,
 * against its information I, U' I^-1 U on as many degrees as there are coefficients (Cox 1972). With one
 * covariate that names two groups and the exact likelihood it is the log-rank test.
 */
import { type CoxFit, coxEvaluation } from "./cox-regression.ts";
import { chiSquareUpperTail } from "./distributions.ts";
import type { ChiSquare } from "./regression-table.ts";
import { quadraticForm } from "./symmetric-solve.ts";

/** The test of the fit's covariates, without those that have no coefficient. */
export function coxScoreTest({ data, ties }: CoxFit): ChiSquare {
  const degreesOfFreedom = data.columns.length;
  const { information, score } = coxEvaluation(data, new Float64Array(degreesOfFreedom), ties);
  const statistic = quadraticForm(information, score).value;
  const pValue = chiSquareUpperTail(statistic, degreesOfFreedom);
  return { statistic, degreesOfFreedom, pValue };
}
