/**
 * How much each row of a Cox model moves the coefficients: the dfbeta residuals.
 *
 * To a first order, leaving row i out changes the coefficients by -B s_i, with s_i its score residual
 * (`cox-score-residuals.ts`) and B the model's covariance (Cain and Lange 1984; Therneau and Grambsch
 * 2000, section 7.1). The sum of B s_i s_i' B over rows is the robust covariance. Two eyes of a patient
 * are added to see what the patient does. Of a coefficient that moves without end they mean nothing.
 */
import type { CoxFit } from "./cox-regression.ts";
import { requireEvaluation } from "./cox-residuals.ts";
import { scoreResiduals } from "./cox-score-residuals.ts";

export interface CoxInfluence {
  readonly name: string;
  /** By row given, what it adds to the coefficient; 0 for rows that were at risk at no event. */
  readonly change: Float64Array;
  /** The same in standard errors of the coefficient, the model's own. */
  readonly inErrors: Float64Array;
}

/** One entry per covariate that has a coefficient; refuses a fit with exact ties. */
export function coxInfluence(fit: CoxFit): CoxInfluence[] {
  const { data, coefficients, covariance } = fit;
  const residuals = scoreResiduals(data, requireEvaluation(fit));
  const used = Array.from(coefficients.keys()).filter(
    (c) => !fit.aliased.includes(coefficients[c]!.name),
  );
  return used.map((c) => {
    const change = new Float64Array(data.total);
    data.order.forEach((row, i) => {
      change[row] = used.reduce((sum, other, k) => {
        return sum + covariance[c * coefficients.length + other]! * residuals[k]![i]!;
      }, 0);
    });
    const { name, standardError } = coefficients[c]!;
    return { name, change, inErrors: change.map((value) => value / standardError) };
  });
}
