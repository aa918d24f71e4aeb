/**
 * The sixth table of real coverage and size: models of failure, with time and without.
 *
 * Times are drawn as in `simulated-eyes.ts`; in the second half of the eyes the hazard is doubled where it
 * is said. Outcomes without times follow a logistic model with an odds ratio of 2 a standard deviation of
 * a normal covariate, none of a second one and none between two groups, at the rate on average; "null" is
 * a model in which nothing has an effect. "As shown" is by the rules of the questions: Firth's penalty where
 * failures are under ten a column or an estimate has no end, and no model under five failures. Expected
 * failures are of a model of three times as many eyes of others, refitted to their failures where penalised.
 */
import { calibration } from "../../../src/statistics/calibration.ts";
import { concordance } from "../../../src/statistics/concordance.ts";
import { coxFirth } from "../../../src/statistics/cox-firth.ts";
import { coxRegression } from "../../../src/statistics/cox-regression.ts";
import { normalQuantile } from "../../../src/statistics/distributions.ts";
import { fineGray } from "../../../src/statistics/fine-gray.ts";
import { hosmerLemeshow } from "../../../src/statistics/hosmer-lemeshow.ts";
import { logisticFirth } from "../../../src/statistics/logistic-firth.ts";
import { logisticProfile } from "../../../src/statistics/logistic-profile.ts";
import {
  type LogisticFit,
  logisticRegression,
} from "../../../src/statistics/logistic-regression.ts";
import { proportionalHazardsTest } from "../../../src/statistics/proportional-hazards-test.ts";
import {
  standardisedDifference,
  standardisedRate,
} from "../../../src/statistics/regression-standardisation.ts";
import { rocDifference } from "../../../src/statistics/roc-area.ts";
import { type RandomSource, seededRandom } from "../../../src/statistics/seeded-random.ts";
import { eyeCounts, failureRates } from "./coverage-cells.ts";
import type { CoverageTable } from "./coverage-table.ts";
import { type DrawnOutcomes, drawnOutcomes, EFFECT } from "./drawn-outcomes.ts";
import { holds, rejects, sharesAndUnknown, type Told } from "./shares-of-series.ts";
import { type Simulation, simulatedEyes } from "./simulated-eyes.ts";

const settings = { seed: 20_260_505, replicates: 1000, level: 0.95, day: 180 } as const;

export const modelTable: CoverageTable = {
  name: "model-coverage",
  settings,
  about: [
    "# Real coverage of 95% intervals of models, and real size of 5% tests, in percent",
    "",
    "What is drawn is in `model-cells.ts`, `drawn-outcomes.ts` and `simulated-eyes.ts`. All simulated:",
    `${settings.replicates} series a cell, seed ${settings.seed}, error about 0.7. Shares are of the series in`,
    "which the interval or the test exists. From proportional hazards on the numbers are sizes of tests.",
    "Where few series reach the five failures of a model, those that do have more than the rate has it, and",
    "limits of a rate miss it: read such shares beside the share not shown.",
  ],
  places: ["rate", "eyes"],
  at: failureRates.flatMap((rate) => eyeCounts.map((eyes) => ({ rate, eyes }))),
  columns: {
    coxGroup: "Cox, Wald, hazard doubled",
    coxFirth: "Cox, Firth, profile, hazard doubled",
    coxShown: "Cox as shown",
    coxShownUnknown: "(not shown)",
    fineGray: "Fine–Gray",
    concordance: "concordance of a given score",
    logisticWald: "logistic, Wald",
    logisticProfile: "logistic, profile",
    logisticFirth: "logistic, Firth, profile",
    logisticShown: "logistic as shown",
    logisticShownUnknown: "(not shown)",
    standardisedRate: "standardised rate, delta",
    standardisedDifference: "standardised difference, delta",
    calibrationIntercept: "calibration intercept",
    calibrationSlope: "calibration slope",
    rocDifference: "difference of c-statistics",
    proportionalHazards: "proportional hazards",
    logisticWaldTest: "logistic, Wald, null",
    logisticTest: "logistic, likelihood ratio, null",
    standardisedTest: "standardised difference",
    hosmerLemeshow: "Hosmer–Lemeshow",
  },
  cell: ({ rate = 0, eyes = 0 }) => {
    const random = seededRandom(settings.seed + eyes * 1000 + Math.round(rate * 1000));
    const simulation = { eyes, rate, day: settings.day, random };
    const { shares, unknown } = sharesAndUnknown(settings.replicates, () => ({
      ...ofHazards(simulation),
      ...ofOutcomes(drawnOutcomes(simulation)),
      ...ofNull(simulation),
    }));
    return {
      ...shares,
      coxShownUnknown: unknown.coxShown ?? null,
      logisticShownUnknown: unknown.logisticShown ?? null,
    };
  },
};

/** No model is fitted under so many failures. */
const FEWEST = 5;

const normal = (random: RandomSource) => normalQuantile(random.uniform());

function ofHazards(simulation: Simulation): Told {
  const { eyes, rate, random } = simulation;
  const half = Math.floor(eyes / 2);
  const one = simulatedEyes({ ...simulation, eyes: half });
  const two = simulatedEyes({ ...simulation, eyes: eyes - half, rate: 1 - (1 - rate) ** 2 });
  const time = Float64Array.of(...one.time, ...two.time);
  const event = Uint8Array.of(...one.event, ...two.event);
  const second = Float64Array.from(time, (_, i) => (i < half ? 0 : 1));
  const score = Float64Array.from(time, () => normal(random));
  const failures = event.reduce((sum, e) => sum + e, 0);
  if (failures === 0) return noHazards;
  const fit = coxRegression({ time, event, covariates: [second] });
  const hasFiniteEnd = fit.converged && fit.aliased.length === 0 && fit.infinite.length === 0;
  const wald = hasFiniteEnd ? holds(fit.coefficients[0], Math.LN2) : null;
  const firth =
    fit.aliased.length > 0
      ? null
      : holds(coxFirth({ time, event, covariates: [second] }).coefficients[0], Math.LN2);
  const shown = hasFiniteEnd ? wald : firth;
  const cause = Int32Array.from(event, (e) => (e === 0 ? 0 : random.below(5) === 0 ? 2 : 1));
  return {
    coxGroup: wald,
    coxFirth: firth,
    coxShown: failures < FEWEST ? null : shown,
    concordance: holds(concordance({ time, event, score }), 0.5),
    fineGray: fineGrayHolds({ time, cause, covariates: [score] }),
    proportionalHazards:
      hasFiniteEnd && failures >= FEWEST
        ? rejects(proportionalHazardsTest(fit).global.pValue)
        : null,
  };
}

const noHazards = {
  ...{ coxGroup: null, coxFirth: null, coxShown: null, concordance: null, fineGray: null },
  proportionalHazards: null,
} as const;

function fineGrayHolds(input: Parameters<typeof fineGray>[0]): boolean | null {
  if (!Array.from(input.cause).includes(1)) return null;
  const { coefficients, converged, infinite, aliased } = fineGray(input);
  const isKnown = converged && infinite.length === 0 && aliased.length === 0;
  return isKnown ? holds(coefficients[0], 0) : null;
}

function ofOutcomes({ outcome, risk, x, other, second, rate }: DrawnOutcomes): Told {
  const failures = outcome.reduce((sum, y) => sum + y, 0);
  const rarer = Math.min(failures, outcome.length - failures);
  if (rarer === 0) return noOutcomes;
  const covariates = [x];
  const fit = logisticRegression({ outcome, covariates });
  const profile = hasEnd(fit) ? holds(logisticProfile({ outcome, covariates })[1], EFFECT) : null;
  const firth = holds(logisticFirth({ outcome, covariates }).coefficients[1], EFFECT);
  const shown = hasEnd(fit) && rarer >= 10 * covariates.length ? profile : firth;
  const calibrated = calibration(outcome, risk);
  return {
    logisticWald: hasEnd(fit) ? holds(fit.coefficients[1], EFFECT) : null,
    logisticProfile: profile,
    logisticFirth: firth,
    logisticShown: rarer < FEWEST ? null : shown,
    calibrationIntercept: holds(calibrated?.intercept, 0),
    calibrationSlope: holds(calibrated?.slope, 1),
    rocDifference: holds(rocDifference(outcome, { first: other, second: second }), 0),
    hosmerLemeshow: hasEnd(fit) && rarer >= FEWEST ? lackOfFit(outcome, fit) : null,
    ...standardised({ outcome, x, second, rate, rarer }),
  };
}

const noOutcomes = {
  ...{ logisticWald: null, logisticProfile: null, logisticFirth: null, logisticShown: null },
  ...{ calibrationIntercept: null, calibrationSlope: null, rocDifference: null },
  ...{ hosmerLemeshow: null },
  ...{ standardisedRate: null, standardisedDifference: null, standardisedTest: null },
} as const;

function hasEnd({ converged, infinite, aliased }: LogisticFit): boolean {
  return converged && infinite.length === 0 && aliased.length === 0;
}

/** In tenths of the risk, fewer where a tenth would hold under 15 eyes. */
function lackOfFit(outcome: Uint8Array, { probabilities }: LogisticFit): boolean | null {
  const groups = Math.max(2, Math.min(10, Math.floor(outcome.length / 15)));
  const test = hosmerLemeshow(outcome, probabilities, { groups });
  return test === null || test.degreesOfFreedom === 0 ? null : rejects(test.pValue);
}

type Standardised = Pick<DrawnOutcomes, "outcome" | "x" | "second" | "rate"> & {
  readonly rarer: number;
};

function standardised({ outcome, x, second, rate, rarer }: Standardised): Told {
  const fit = logisticRegression({ outcome, covariates: [second, x] });
  if (!hasEnd(fit) || rarer < FEWEST) {
    return { standardisedRate: null, standardisedDifference: null, standardisedTest: null };
  }
  const all = (value: number) => new Float64Array(outcome.length).fill(value);
  const [one, other] = [0, 1].map((value) => standardisedRate(fit, [all(value), x]));
  const difference = standardisedDifference(fit, { first: other!, second: one! });
  return {
    standardisedRate: holds(one, rate),
    standardisedDifference: holds(difference, 0),
    standardisedTest: rejects(difference.pValue),
  };
}

function ofNull({ eyes, rate, random }: Simulation): Told {
  const outcome = Uint8Array.from({ length: eyes }, () => (random.uniform() < rate ? 1 : 0));
  const x = Float64Array.from({ length: eyes }, () => normal(random));
  const failures = outcome.reduce((sum, y) => sum + y, 0);
  if (Math.min(failures, eyes - failures) < FEWEST)
    return { logisticWaldTest: null, logisticTest: null };
  const fit = logisticRegression({ outcome, covariates: [x] });
  if (!hasEnd(fit)) return { logisticWaldTest: null, logisticTest: null };
  return {
    logisticWaldTest: rejects(fit.coefficients[1]!.pValue),
    logisticTest: rejects(fit.likelihoodRatio.pValue),
  };
}
