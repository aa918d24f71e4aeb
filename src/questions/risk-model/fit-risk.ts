import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { type BrierParts, brierParts } from "../../statistics/brier-parts.ts";
import { chiSquareUpperTail } from "../../statistics/distributions.ts";
import { type HosmerLemeshow, hosmerLemeshow } from "../../statistics/hosmer-lemeshow.ts";
import { logisticFirth } from "../../statistics/logistic-firth.ts";
import { logisticProfile } from "../../statistics/logistic-profile.ts";
import { type LogisticFit, logisticRegression } from "../../statistics/logistic-regression.ts";
import type { ChiSquare } from "../../statistics/regression-table.ts";
import { type RocArea, rocArea } from "../../statistics/roc-area.ts";
import { quadraticForm } from "../../statistics/symmetric-solve.ts";
import {
  clusteredEffects,
  type EffectsAndTest,
  enoughFailures,
  thinColumns,
} from "../modelling/clustered-effects.ts";
import type { ModelData } from "../modelling/model-data.ts";
import { collinear, tooFewFailures } from "../modelling/model-faults.ts";

export const fitMethods = ["by failures", "maximum likelihood", "Firth"] as const;
export type FitMethod = (typeof fitMethods)[number];

/** A fitted logistic model of eyes. */
export interface RiskFit {
  readonly data: ModelData;
  readonly effects: EffectsAndTest["effects"];
  /** By eye of the model. */
  readonly outcome: readonly boolean[];
  readonly predicted: Float64Array;
  readonly failures: number;
  readonly isPenalised: boolean;
  /** Fewer than ten failures (or eyes that did not fail) a column. */
  readonly isFew: boolean;
  /** Names of the columns without a finite ordinary estimate. */
  readonly infinite: readonly string[];
  /** Names of the columns that few patients carry, where patients give two eyes. */
  readonly thin: readonly string[];
  readonly overall: EffectsAndTest["overall"];
  readonly roc: RocArea | null;
  /** Over the groups of the calibration. */
  readonly brier: BrierParts | null;
  readonly calibration: HosmerLemeshow | null;
}

/**
 * Under this number of failures (or of eyes that did not fail) a column, Firth's method is used.
 */
const enoughPerColumn = 10;

/**
 * Logistic regression of failure: by maximum likelihood with profile limits (robust by patient
 * where patients give two eyes), or by Firth's penalised likelihood where failures are few or a
 * column tells the outcome apart. What the eyes cannot support is a problem.
 */
export function fitRisk(
  data: ModelData,
  hasFailed: (eye: number) => boolean,
  options: { readonly method: FitMethod; readonly given: GivenArguments },
): { readonly fit: RiskFit } | { readonly problems: readonly Problem[] } {
  const { eyes, columns, names, cluster } = data;
  const outcome = eyes.map(hasFailed);
  const failures = outcome.filter(Boolean).length;
  const rarer = Math.min(failures, eyes.length - failures);
  const few = tooFewFailures(data, rarer, options.given);
  if (few.length > 0) return { problems: few };
  const input = {
    outcome,
    covariates: columns.map(({ values }) => values),
    names: [...names],
  };
  const plain = logisticRegression({ ...input, ...(cluster === undefined ? {} : { cluster }) });
  const problems = collinear(data, plain.aliased, { given: options.given });
  if (problems.length > 0) return { problems };
  const isFew = rarer < enoughPerColumn * columns.length;
  const isPenalised = wantsPenalty(plain, options.method, isFew);
  const thin = isPenalised ? [] : thinColumns(data);
  const parts = isPenalised
    ? byFirth(input)
    : byLikelihood(plain, input, thin.length > 0 || rarer < enoughFailures);
  const groups = groupsFor(eyes.length);
  return {
    fit: {
      data,
      outcome,
      failures,
      isPenalised,
      isFew,
      ...parts,
      infinite: plain.infinite,
      thin,
      roc: rocArea(outcome, parts.predicted),
      brier: brierParts(outcome, parts.predicted, { groups }),
      calibration: hosmerLemeshow(outcome, parts.predicted, { groups }),
    },
  };
}

/** A separated outcome has no maximum: there the penalty is needed whatever was asked. */
function wantsPenalty(
  { infinite, converged }: LogisticFit,
  method: FitMethod,
  isFew: boolean,
): boolean {
  if (infinite.length > 0 || !converged || method === "Firth") return true;
  return method === "by failures" && isFew;
}

/** Tenths of the predicted risk; fewer where a tenth would hold under 15 eyes. */
function groupsFor(eyes: number): number {
  return Math.max(2, Math.min(10, Math.floor(eyes / 15)));
}

interface FitParts extends EffectsAndTest {
  readonly predicted: Float64Array;
}

type LogisticInput = Parameters<typeof logisticFirth>[0];

function byLikelihood(fit: LogisticFit, input: LogisticInput, runsSmall: boolean): FitParts {
  const { level, likelihoodRatio, probabilities: predicted } = fit;
  const coefficients = fit.coefficients.slice(1);
  if (fit.robustCovariance !== null) {
    const clustered = { coefficients, level, likelihoodRatio, wald: robustWald(fit) };
    return { predicted, ...clusteredEffects(clustered, runsSmall) };
  }
  const profile = logisticProfile(input, level).slice(1);
  return {
    predicted,
    effects: coefficients.map(({ estimate, pValue }, c) => ({
      ratio: {
        estimate: Math.exp(estimate),
        lower: Math.exp(profile[c]?.lower ?? Number.NaN),
        upper: Math.exp(profile[c]?.upper ?? Number.NaN),
        level,
        method: "profile-likelihood",
      },
      p: pValue,
    })),
    overall: { ...likelihoodRatio, name: "likelihood-ratio test" },
  };
}

/** All slopes at once against the robust covariance, the intercept's row and column left out. */
function robustWald({ coefficients, robustCovariance }: LogisticFit): ChiSquare {
  const size = coefficients.length;
  const slopes = coefficients.slice(1).map(({ estimate }) => estimate);
  const covariance = (robustCovariance ?? new Float64Array(size * size)).filter(
    (_, cell) => cell >= size && cell % size > 0,
  );
  const { value, rank } = quadraticForm(covariance, slopes);
  return { statistic: value, degreesOfFreedom: rank, pValue: chiSquareUpperTail(value, rank) };
}

function byFirth(input: LogisticInput): FitParts {
  const { coefficients, level, likelihoodRatio, probabilities } = logisticFirth(input);
  return {
    effects: coefficients.slice(1).map(({ estimate, lower, upper, pValue }) => ({
      ratio: {
        estimate: Math.exp(estimate),
        lower: Math.exp(lower),
        upper: Math.exp(upper),
        level,
        method: "Firth, profile likelihood",
      },
      p: pValue,
    })),
    predicted: probabilities,
    overall: { ...likelihoodRatio, name: "penalised likelihood-ratio test" },
  };
}
