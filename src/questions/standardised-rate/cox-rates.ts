import type { Problem } from "../../problem/problem.ts";
import { coxSurvival } from "../../statistics/cox-baseline.ts";
import { type CoxFit, coxRegression } from "../../statistics/cox-regression.ts";
import { proportionalHazardsTest } from "../../statistics/proportional-hazards-test.ts";
import type { ModelRates, StandardiseInput } from "./model-rates.ts";
import { modelRefusals } from "./model-refusals.ts";
import { type Design, resampledSlopes } from "./standardisation-design.ts";

/**
 * Rates by Cox's model with Efron's ties, which uses every eye for as long as it was followed: the
 * risk of an eye at the window is 1 - exp(-H0 exp(x b)), H0 the baseline cumulative hazard. It has
 * no limits but those of the bootstrap.
 */
export function coxRates(
  design: Design,
  input: StandardiseInput,
): { readonly model: ModelRates } | { readonly problems: readonly Problem[] } {
  const { data, hasFailed, followUp } = input;
  const time = data.eyes.map((eye) => followUp?.time(eye) ?? 0);
  const event = data.eyes.map(hasFailed);
  const { covariates, names } = design;
  const all = Int32Array.from(data.eyes, (_, row) => row);
  const fit = coxRegression({ time, event, covariates, names: [...names] });
  const problems = modelRefusals(fit, input);
  if (problems.length > 0) return { problems };
  return {
    model: {
      rates: ratesOf({ fit, slopes: slopesOf(fit) }, design, all),
      proportional: proportionalHazardsTest(fit).global.pValue,
      ratesOn: (rows) => {
        const pick = <T>(values: readonly T[]): T[] => Array.from(rows, (row) => values[row] as T);
        const refit = coxRegression({
          time: pick(time),
          event: pick(event),
          covariates: covariates.map(pick),
        });
        const slopes = resampledSlopes(slopesOf(refit), design);
        return slopes === null ? null : ratesOf({ fit: refit, slopes }, design, rows);
      },
    },
  };
}

function slopesOf({ coefficients }: CoxFit): number[] {
  return coefficients.map(({ estimate }) => estimate);
}

/** Times are cut at the window, so the hazard at the last event is that at the window. */
function ratesOf(
  { fit, slopes }: { fit: CoxFit; slopes: readonly number[] },
  { scenarios }: Design,
  rows: Int32Array,
): number[] {
  const [baseline] = coxSurvival(fit, new Array<number>(slopes.length).fill(0));
  const hazard = baseline?.hazard.at(-1) ?? 0;
  return scenarios.map((scenario) => {
    let sum = 0;
    for (const row of rows) {
      let score = 0;
      for (let c = 0; c < slopes.length; c++) score += (slopes[c] ?? 0) * (scenario[c]?.[row] ?? 0);
      sum += -Math.expm1(-hazard * Math.exp(score));
    }
    return sum / rows.length;
  });
}
