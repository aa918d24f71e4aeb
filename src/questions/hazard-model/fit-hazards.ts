import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { type Concordance, concordance } from "../../statistics/concordance.ts";
import { coxFirth } from "../../statistics/cox-firth.ts";
import { type CoxFit, coxRegression } from "../../statistics/cox-regression.ts";
import {
  type ProportionalHazardsTest,
  proportionalHazardsTest,
} from "../../statistics/proportional-hazards-test.ts";
import { type ChiSquare, ratioOfCoefficient } from "../../statistics/regression-table.ts";
import {
  clusteredEffects,
  type EffectsAndTest,
  enoughFailures,
  thinColumns,
} from "../modelling/clustered-effects.ts";
import type { ModelData } from "../modelling/model-data.ts";
import type { ModelEffect } from "../modelling/model-effects.ts";
import { collinear, tooFewFailures } from "../modelling/model-faults.ts";

/** A fitted Cox model of eyes. */
export interface HazardFit {
  readonly data: ModelData;
  readonly effects: readonly ModelEffect[];
  readonly failures: number;
  /** All columns at once, and by which test. */
  readonly overall: ChiSquare & { readonly name: string };
  /** How often the eye of higher risk fails first; null where no pair can be ordered. */
  readonly concordance: Concordance | null;
  /** Null where Firth's method was used. */
  readonly proportional: ProportionalHazardsTest | null;
  /** Whether Firth's penalised likelihood was used. */
  readonly isPenalised: boolean;
  /** Names of the columns without a finite ordinary estimate. */
  readonly infinite: readonly string[];
  /** Names of the columns that few patients carry, where patients give two eyes. */
  readonly thin: readonly string[];
}

export interface CutEyes {
  readonly time: (eye: number) => number;
  readonly hasFailed: (eye: number) => boolean;
}

/**
 * Cox's model with Efron's ties, errors clustered by patient where patients give two eyes; Firth's
 * penalised likelihood, with profile limits, for all columns where one of them has no finite
 * estimate. What the eyes cannot support is a problem.
 */
export function fitHazards(
  data: ModelData,
  cut: CutEyes,
  given: GivenArguments,
): { readonly fit: HazardFit } | { readonly problems: readonly Problem[] } {
  const { eyes, columns, names, cluster } = data;
  const event = eyes.map(cut.hasFailed);
  const failures = event.filter(Boolean).length;
  const few = tooFewFailures(data, failures, given);
  if (few.length > 0) return { problems: few };
  const input = {
    time: eyes.map(cut.time),
    event,
    covariates: columns.map(({ values }) => values),
    names: [...names],
  };
  const fit = coxRegression({ ...input, ...(cluster === undefined ? {} : { cluster }) });
  const problems = collinear(data, fit.aliased, { given });
  if (problems.length > 0) return { problems };
  const isPenalised = fit.infinite.length > 0 || !fit.converged;
  const thin = isPenalised ? [] : thinColumns(data);
  const parts = isPenalised
    ? penalised(input)
    : byLikelihood(fit, thin.length > 0 || failures < enoughFailures);
  const score = eyes.map((_, row) =>
    columns.reduce((sum, { values }, c) => sum + (values[row] ?? 0) * (parts.slopes[c] ?? 0), 0),
  );
  const followUp = { time: input.time, event, score };
  return {
    fit: {
      data,
      failures,
      effects: parts.effects,
      overall: parts.overall,
      concordance: concordance({ ...followUp, ...(cluster === undefined ? {} : { cluster }) }),
      proportional: isPenalised ? null : proportionalHazardsTest(fit),
      isPenalised,
      infinite: fit.infinite,
      thin,
    },
  };
}

interface FitParts extends EffectsAndTest {
  readonly slopes: readonly number[];
}

function byLikelihood(fit: CoxFit, runsSmall: boolean): FitParts {
  const { coefficients, robustCovariance, level, likelihoodRatio } = fit;
  const slopes = coefficients.map(({ estimate }) => estimate);
  if (robustCovariance !== null) return { slopes, ...clusteredEffects(fit, runsSmall) };
  return {
    slopes,
    effects: coefficients.map((each) => ({
      ratio: ratioOfCoefficient(each, level),
      p: each.pValue,
    })),
    overall: { ...likelihoodRatio, name: "likelihood-ratio test" },
  };
}

function penalised(input: Parameters<typeof coxFirth>[0]): FitParts {
  const { coefficients, level, likelihoodRatio } = coxFirth(input);
  return {
    slopes: coefficients.map(({ estimate }) => estimate),
    effects: coefficients.map(({ estimate, lower, upper, pValue }) => ({
      ratio: {
        estimate: Math.exp(estimate),
        lower: Math.exp(lower),
        upper: Math.exp(upper),
        level,
        method: "Firth, profile likelihood",
      },
      p: pValue,
    })),
    overall: { ...likelihoodRatio, name: "penalised likelihood-ratio test" },
  };
}
