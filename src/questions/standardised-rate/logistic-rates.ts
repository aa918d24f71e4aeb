import type { Problem } from "../../problem/problem.ts";
import { logisticRegression } from "../../statistics/logistic-regression.ts";
import {
  standardisedDifference,
  standardisedRate,
} from "../../statistics/regression-standardisation.ts";
import type { ModelRates, StandardiseInput } from "./model-rates.ts";
import { modelRefusals } from "./model-refusals.ts";
import type { RatesOn } from "./resampled-intervals.ts";
import { type Design, resampledSlopes } from "./standardisation-design.ts";

/**
 * Rates by logistic regression among eyes whose outcome is known, with limits by the delta method,
 * robust by patient where patients give two eyes.
 */
export function logisticRates(
  design: Design,
  input: StandardiseInput,
): { readonly model: ModelRates } | { readonly problems: readonly Problem[] } {
  const { data, reference } = input;
  const outcome = data.eyes.map(input.hasFailed);
  const { covariates, names, scenarios } = design;
  const cluster = data.cluster === undefined ? {} : { cluster: data.cluster };
  const fit = logisticRegression({ outcome, covariates, names: [...names], ...cluster });
  const problems = modelRefusals(fit, input);
  if (problems.length > 0) return { problems };
  const method = data.cluster === undefined ? "delta-method" : "delta-method, robust by patient";
  const made = scenarios.map((scenario) => standardisedRate(fit, scenario));
  const against = made[reference];
  if (against === undefined) throw new Error("there is no reference group");
  return {
    model: {
      rates: made.map(({ rate }) => rate),
      delta: {
        rates: made.map(({ lower, upper, level }) => ({ lower, upper, level, method })),
        differences: made.map((first) => {
          const { lower, upper, level, pValue } = standardisedDifference(fit, {
            first,
            second: against,
          });
          return { lower, upper, level, method, p: pValue };
        }),
      },
      proportional: null,
      ratesOn: ratesOn(design, outcome),
    },
  };
}

/** The rates of a resample: drawn rows count as often as they were drawn. */
function ratesOn(design: Design, outcome: readonly boolean[]): RatesOn {
  const { covariates, scenarios } = design;
  return (rows) => {
    const times = new Map<number, number>();
    for (const row of rows) times.set(row, (times.get(row) ?? 0) + 1);
    const drawn = [...times.keys()];
    const weight = [...times.values()];
    const fit = logisticRegression({
      outcome: drawn.map((row) => outcome[row] ?? false),
      covariates: covariates.map((column) => drawn.map((row) => column[row] ?? 0)),
      weight,
    });
    const [intercept = Number.NaN, ...estimates] = fit.coefficients.map((each) => each.estimate);
    const slopes = resampledSlopes(estimates, design);
    if (slopes === null) return null;
    return scenarios.map((scenario) => {
      const total = drawn.reduce((sum, row, i) => {
        const logit = slopes.reduce((eta, b, c) => eta + b * (scenario[c]?.[row] ?? 0), intercept);
        return sum + (weight[i] ?? 0) / (1 + Math.exp(-logit));
      }, 0);
      return total / rows.length;
    });
  };
}
