import { brierParts } from "../../../src/statistics/brier-parts.ts";
import { brierScore, calibration } from "../../../src/statistics/calibration.ts";
import { calibrationCurve } from "../../../src/statistics/calibration-curve.ts";
import { coxSurvival } from "../../../src/statistics/cox-baseline.ts";
import { coxFirth } from "../../../src/statistics/cox-firth.ts";
import { coxInfluence } from "../../../src/statistics/cox-influence.ts";
import { coxRegression } from "../../../src/statistics/cox-regression.ts";
import {
  devianceResiduals,
  martingaleResiduals,
  schoenfeldResiduals,
} from "../../../src/statistics/cox-residuals.ts";
import { coxScoreTest } from "../../../src/statistics/cox-score-test.ts";
import { fineGray } from "../../../src/statistics/fine-gray.ts";
import { hosmerLemeshow } from "../../../src/statistics/hosmer-lemeshow.ts";
import {
  logisticFirth,
  logisticFirthEstimates,
  logisticFirthTest,
} from "../../../src/statistics/logistic-firth.ts";
import { logisticProfile } from "../../../src/statistics/logistic-profile.ts";
import { logisticRegression } from "../../../src/statistics/logistic-regression.ts";
import { proportionalHazardsTest } from "../../../src/statistics/proportional-hazards-test.ts";
import { standardisedRate } from "../../../src/statistics/regression-standardisation.ts";
import { rocArea, rocDifference } from "../../../src/statistics/roc-area.ts";
import { type EdgeTable, over } from "./edge-table.ts";

const x = [0.2, 0.9, 0.4, 0.7, 0.1, 0.8];
const twice = x.map((value) => 2 * value);
const failed = [0, 1, 1, 0, 0, 1];

const outcomes = {
  empty: { outcome: [], covariates: [[]], names: ["age"] },
  one: { outcome: [1], covariates: [[0.5]], names: ["age"] },
  "none failed": { outcome: [0, 0, 0, 0, 0, 0], covariates: [x], names: ["age"] },
  "all failed": { outcome: [1, 1, 1, 1, 1, 1], covariates: [x], names: ["age"] },
  "no covariates": { outcome: failed, covariates: [], names: [] },
  constant: { outcome: failed, covariates: [x, x.map(() => 3)], names: ["age", "site"] },
  collinear: { outcome: failed, covariates: [x, twice], names: ["age", "days"] },
  separated: { outcome: [0, 0, 0, 1, 1, 1], covariates: [[1, 2, 3, 4, 5, 6]], names: ["age"] },
  "a missing covariate": { outcome: [0, 1], covariates: [[1, Number.NaN]], names: ["age"] },
  "a missing outcome": { outcome: [0, Number.NaN], covariates: [[1, 2]], names: ["age"] },
};

const hazards = {
  empty: { time: [], event: [], covariates: [[]], names: ["age"] },
  one: { time: [5], event: [1], covariates: [[0.5]], names: ["age"] },
  "none failed": { time: x, event: failed.map(() => 0), covariates: [x], names: ["age"] },
  "all failed": {
    time: [4, 1, 6, 2, 5, 3],
    event: failed.map(() => 1),
    covariates: [x],
    names: ["age"],
  },
  "all tied": { time: [3, 3, 3, 3, 3, 3], event: failed, covariates: [x], names: ["age"] },
  "at time 0": { time: [0, 0, 0, 2, 3, 1], event: failed, covariates: [x], names: ["age"] },
  constant: {
    time: [4, 1, 6, 2, 5, 3],
    event: failed,
    covariates: [x, x.map(() => 3)],
    names: ["age", "site"],
  },
  collinear: {
    time: [4, 1, 6, 2, 5, 3],
    event: failed,
    covariates: [x, twice],
    names: ["age", "days"],
  },
  monotone: {
    time: [1, 2, 3, 4, 5, 6],
    event: [1, 1, 1, 0, 0, 0],
    covariates: [[1, 1, 1, 0, 0, 0]],
    names: ["age"],
  },
  "a missing covariate": {
    time: [1, 2],
    event: [1, 0],
    covariates: [[1, Number.NaN]],
    names: ["age"],
  },
  "a missing time": { time: [1, Number.NaN], event: [1, 0], covariates: [[1, 2]], names: ["age"] },
};

const predictions = {
  empty: { outcome: [], probability: [] },
  one: { outcome: [1], probability: [0.5] },
  "none failed": { outcome: [0, 0, 0, 0], probability: [0.1, 0.2, 0.3, 0.4] },
  "all failed": { outcome: [1, 1, 1, 1], probability: [0.1, 0.2, 0.3, 0.4] },
  "all tied": { outcome: [1, 0, 1, 0], probability: [0.3, 0.3, 0.3, 0.3] },
  certain: { outcome: [1, 0], probability: [1, 0] },
  "certain and wrong": { outcome: [1, 0], probability: [0, 1] },
  missing: { outcome: [1, 0], probability: [0.5, Number.NaN] },
};

/** Of those who did not fail of the cause, every other one failed of another. */
const competing = (event: readonly number[]) => event.map((e, i) => (e === 0 ? 2 * (i % 2) : e));

/** Regressions and how well a prediction does. */
export const modelEdges: EdgeTable = {
  logisticRegression: over(outcomes, (each) => logisticRegression(each)),
  logisticProfile: over(outcomes, (each) => logisticProfile(each)),
  logisticFirth: over(outcomes, (each) => logisticFirth(each)),
  logisticFirthTest: over(outcomes, (each) => logisticFirthTest(each)),
  logisticFirthEstimates: over(outcomes, (each) => logisticFirthEstimates(each)),
  standardisedRate: over(outcomes, (each) =>
    standardisedRate(logisticRegression(each), each.covariates),
  ),
  coxRegression: over(hazards, (each) => coxRegression(each)),
  coxScoreTest: over(hazards, (each) => coxScoreTest(coxRegression(each))),
  coxFirth: over(hazards, (each) => coxFirth(each)),
  coxSurvival: over(hazards, (each) =>
    coxSurvival(
      coxRegression(each),
      each.covariates.map(() => 0),
    ),
  ),
  martingaleResiduals: over(hazards, (each) => martingaleResiduals(coxRegression(each))),
  devianceResiduals: over(hazards, (each) => devianceResiduals(coxRegression(each))),
  coxInfluence: over(hazards, (each) => coxInfluence(coxRegression(each))),
  schoenfeldResiduals: over(hazards, (each) => schoenfeldResiduals(coxRegression(each))),
  proportionalHazardsTest: over(hazards, (each) => proportionalHazardsTest(coxRegression(each))),
  fineGray: over(hazards, ({ event, ...each }) => fineGray({ ...each, cause: competing(event) })),
  brierScore: over(predictions, ({ outcome, probability }) => brierScore(outcome, probability)),
  brierParts: over(predictions, ({ outcome, probability }) =>
    brierParts(outcome, probability, { groups: 2 }),
  ),
  calibrationCurve: over(predictions, ({ outcome, probability }) =>
    calibrationCurve(outcome, probability),
  ),
  calibration: over(predictions, ({ outcome, probability }) => calibration(outcome, probability)),
  hosmerLemeshow: over(predictions, ({ outcome, probability }) =>
    hosmerLemeshow(outcome, probability, { groups: 2 }),
  ),
  rocArea: over(predictions, ({ outcome, probability }) => rocArea(outcome, probability)),
  rocDifference: over(predictions, ({ outcome, probability }) =>
    rocDifference(outcome, { first: probability, second: probability.map((p) => p / 2) }),
  ),
};
