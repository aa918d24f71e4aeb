import type { Problem } from "../../problem/problem.ts";
import { coxSurvival } from "../../statistics/cox-baseline.ts";
import { type CoxFit, coxRegression } from "../../statistics/cox-regression.ts";
import { gather, rowNumbers } from "../../statistics/gather.ts";
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
  const event = data.eyes.map((eye) => Number(hasFailed(eye)));
  const { covariates, names } = design;
  const fit = coxRegression({ time, event, covariates, names: [...names] });
  const problems = modelRefusals(fit, input);
  if (problems.length > 0) return { problems };
  const columns = covariates.map((column) => Float64Array.from(column));
  const mean = meanRisks(design, columns);
  const start = slopesOf(fit);
  return {
    model: {
      rates: mean({ fit, slopes: start }, rowNumbers(data.eyes.length)),
      proportional: proportionalHazardsTest(fit).global.pValue,
      // A resample's fit is near that of all eyes: starting there spares steps and changes nothing.
      ratesOn: (rows) => {
        const refit = coxRegression({
          time: gather(time, rows),
          event: gather(event, rows),
          covariates: columns.map((column) => gather(column, rows)),
          start,
        });
        const slopes = resampledSlopes(slopesOf(refit), design);
        return slopes === null ? null : mean({ fit: refit, slopes }, rows);
      },
    },
  };
}

function slopesOf({ coefficients }: CoxFit): number[] {
  return coefficients.map(({ estimate }) => estimate);
}

interface Fitted {
  readonly fit: CoxFit;
  readonly slopes: readonly number[];
}

/**
 * The mean risks over drawn rows as if all were in each group. Times are cut at the window, so the
 * hazard at the last event is that at the window. Within a scenario all rows share the hazard ratio
 * of its group, so that each row's own is worked out once for all of them.
 */
function meanRisks({ scenarios }: Design, columns: readonly Float64Array[]) {
  const groupColumns = scenarios.length - 1;
  return ({ fit, slopes }: Fitted, rows: Int32Array): number[] => {
    const [baseline] = coxSurvival(fit, new Array<number>(slopes.length).fill(0));
    const hazard = baseline?.hazard.at(-1) ?? 0;
    const own = ownRatios(rows, columns.slice(groupColumns), slopes.slice(groupColumns));
    return scenarios.map((scenario) => {
      let score = 0;
      for (let c = 0; c < groupColumns; c++) score += (slopes[c] ?? 0) * (scenario[c]?.[0] ?? 0);
      const ofGroup = hazard * Math.exp(score);
      let sum = 0;
      for (const ratio of own) sum -= Math.expm1(-ofGroup * ratio);
      return sum / rows.length;
    });
  };
}

/** The hazard ratio of each row by the terms alone. */
function ownRatios(
  rows: Int32Array,
  terms: readonly Float64Array[],
  slopes: readonly number[],
): Float64Array {
  const scores = new Float64Array(rows.length);
  terms.forEach((term, c) => {
    const slope = slopes[c] ?? 0;
    for (let i = 0; i < scores.length; i++) scores[i]! += slope * term[rows[i]!]!;
  });
  return scores.map(Math.exp);
}
