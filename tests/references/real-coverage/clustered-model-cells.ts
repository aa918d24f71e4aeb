/**
 * The eighth table of real coverage: ratios, incidences and models that allow for two eyes of one patient,
 * where 10% of patients, or all, give both eyes.
 *
 * Eyes are drawn as in `clustered-cells.ts`. A fifth of the failures are of another cause where causes
 * compete. Covariates belong to patients and have no effect: one is normal, one marks every seventh
 * patient, one is normal by eye. "As shown" is by the rule of the questions: where few patients carry a
 * column, the larger of the robust and the model's error.
 */
import {
  clusteredEffect,
  enoughFailures,
  isThinColumn,
} from "../../../src/questions/modelling/clustered-effects.ts";
import { aalenJohansen } from "../../../src/statistics/aalen-johansen.ts";
import { clusteredAalenJohansen } from "../../../src/statistics/clustered-aalen-johansen.ts";
import { clusteredComparison } from "../../../src/statistics/clustered-comparison.ts";
import { clusteredKaplanMeier } from "../../../src/statistics/clustered-kaplan-meier.ts";
import { clustersAtRisk, limitedByClusters } from "../../../src/statistics/clusters-at-risk.ts";
import { concordance } from "../../../src/statistics/concordance.ts";
import { coxRegression } from "../../../src/statistics/cox-regression.ts";
import { normalQuantile } from "../../../src/statistics/distributions.ts";
import { incidenceAt } from "../../../src/statistics/incidence-at.ts";
import { logisticRegression } from "../../../src/statistics/logistic-regression.ts";
import {
  standardisedDifference,
  standardisedRate,
} from "../../../src/statistics/regression-standardisation.ts";
import type { Coefficient } from "../../../src/statistics/regression-table.ts";
import { type RandomSource, seededRandom } from "../../../src/statistics/seeded-random.ts";
import { survivalAt } from "../../../src/statistics/survival-at.ts";
import { survivalDifferenceAt } from "../../../src/statistics/survival-difference.ts";
import { drawnEyes } from "./clustered-cells.ts";
import { eyeCounts, failureRates } from "./coverage-cells.ts";
import type { CoverageTable } from "./coverage-table.ts";
import { holds, sharesOver, type Told } from "./shares-of-series.ts";

const settings = { seed: 20_260_707, replicates: 1000, level: 0.95, day: 180, correlation: 0.5 };

export const clusteredModelTable: CoverageTable = {
  name: "clustered-model-coverage",
  settings,
  about: [
    "# Real coverage of further 95% intervals with two eyes of some patients, in percent",
    "",
    "What is drawn is in `clustered-model-cells.ts` and `clustered-cells.ts`. All simulated:",
    `${settings.replicates} series a cell, seed ${settings.seed}, error about 0.7. Shares are of the series in`,
    "which the interval exists and at least five eyes failed where it is of a model; where few series reach",
    "five, those that do have more failures than the rate has it.",
  ],
  places: ["patients with both eyes", "rate", "eyes"],
  at: [0.1, 1].flatMap((bilateral) =>
    failureRates.flatMap((rate) => eyeCounts.map((eyes) => ({ bilateral, rate, eyes }))),
  ),
  columns: {
    shownCurve: "Kaplan–Meier as shown",
    curveDifference: "difference of curves, clustered",
    incidence: "(incidence, delta)",
    clusteredIncidence: "incidence, clustered",
    riskRatio: "risk ratio, clustered",
    oddsRatio: "odds ratio, clustered",
    coxPlain: "(Cox, Wald, model's error)",
    coxRobust: "Cox, robust",
    coxShown: "Cox as shown",
    coxLarger: "Cox, larger error",
    coxFewRobust: "Cox, robust, every seventh patient",
    coxFewShown: "Cox, every seventh patient, as shown",
    coxByEye: "Cox, robust, by eye",
    logisticRobust: "logistic, robust",
    logisticShown: "logistic as shown",
    logisticLarger: "logistic, larger error",
    logisticFewShown: "logistic, every seventh patient, as shown",
    concordance: "concordance, clustered",
    standardisedDifference: "standardised difference, robust",
  },
  cell: ({ bilateral = 0, rate = 0, eyes = 0 }) => {
    const place = eyes * 1000 + Math.round(rate * 1000) + Math.round(bilateral * 100) * 1_000_000;
    const random = seededRandom(settings.seed + place);
    return sharesOver(settings.replicates, () => {
      const drawn = drawnEyes({ eyes, rate, bilateral }, random);
      return {
        ...ofCurves(drawn, { rate, random }),
        ...ofGroups(drawn),
        ...ofModels(drawn, { rate, random }),
      };
    });
  },
};

type Drawn = ReturnType<typeof drawnEyes>;
interface About {
  readonly rate: number;
  readonly random: RandomSource;
}

function ofCurves({ time, event, patient }: Drawn, { rate, random }: About): Told {
  const shown = (side?: number) => {
    const own = [...time.keys()].filter((i) => side === undefined || i % 2 === side);
    const cluster = own.map((i) => patient[i]!);
    const input = { time: own.map((i) => time[i]!), event: own.map((i) => event[i]!), cluster };
    return limitedByClusters(clusteredKaplanMeier(input), clustersAtRisk(input.time, cluster));
  };
  const cause = Int32Array.from(event, (e) => (e === 0 ? 0 : random.below(5) === 0 ? 2 : 1));
  const competing = { time, cause, causes: 2 };
  const incidence = (curves: Parameters<typeof incidenceAt>[0]) =>
    holds(incidenceAt(curves, 1, settings.day), rate * 0.8);
  return {
    shownCurve: holds(survivalAt(shown(), settings.day), 1 - rate),
    curveDifference: holds(survivalDifferenceAt(shown(0), shown(1), settings.day), 0),
    incidence: incidence(aalenJohansen(competing)),
    clusteredIncidence: incidence(clusteredAalenJohansen({ ...competing, cluster: patient })),
  };
}

function ofGroups({ failed, patient }: Drawn): Told {
  const group = (side: number) => {
    const own = [...failed.keys()].filter((i) => i % 2 === side);
    return { failed: own.map((i) => failed[i]!), cluster: own.map((i) => patient[i]!) };
  };
  const compared = clusteredComparison(group(0), group(1));
  return { riskRatio: holds(compared?.riskRatio, 1), oddsRatio: holds(compared?.oddsRatio, 1) };
}

function ofModels({ time, event, failed, patient }: Drawn, { random }: About): Told {
  const patients = patient.at(-1)! + 1;
  const normals = Float64Array.from({ length: patients }, () => normalQuantile(random.uniform()));
  const x = Float64Array.from(patient, (id) => normals[id]!);
  const few = Float64Array.from(patient, (id) => (id % 7 === 0 ? 1 : 0));
  const byEye = Float64Array.from(patient, () => normalQuantile(random.uniform()));
  const second = Float64Array.from(patient, (_, i) => i % 2);
  const sum = (values: Uint8Array) => values.reduce((all, value) => all + value, 0);
  const rarer = Math.min(sum(failed), failed.length - sum(failed));
  const about = { cluster: patient, few };
  return {
    ...(sum(event) < 5 ? noHazards : ofHazards({ time, event, x, byEye }, about)),
    ...(rarer < 5 ? noOutcomes : ofOutcomes({ failed, x, second }, about)),
  };
}

const noHazards = {
  ...{ coxPlain: null, coxRobust: null, coxShown: null, coxLarger: null },
  ...{ coxFewRobust: null, coxFewShown: null, coxByEye: null, concordance: null },
} as const;
const noOutcomes = {
  ...{ logisticRobust: null, logisticShown: null, logisticLarger: null },
  ...{ logisticFewShown: null, standardisedDifference: null },
} as const;

interface Carried {
  readonly cluster: Int32Array;
  readonly few: Float64Array;
}

interface Fit {
  readonly converged: boolean;
  readonly infinite: readonly string[];
  readonly aliased: readonly string[];
  readonly coefficients: readonly Coefficient[];
}

const hasEnd = ({ converged, infinite, aliased }: Fit) =>
  converged && infinite.length === 0 && aliased.length === 0;

function ofHazards(
  {
    time,
    event,
    x,
    byEye,
  }: Pick<Drawn, "time" | "event"> & { x: Float64Array; byEye: Float64Array },
  { cluster, few }: Carried,
): Told {
  const fitOf = (column: Float64Array) =>
    coxRegression({ time, event, covariates: [column], cluster });
  const fit = fitOf(x);
  const plain = coxRegression({ time, event, covariates: [x] });
  const fewFit = fitOf(few);
  return {
    coxPlain: hasEnd(plain) ? holds(plain.coefficients[0], 0) : null,
    coxRobust: hasEnd(fit) ? holds(fit.coefficients[0], 0) : null,
    coxShown: hasEnd(fit)
      ? shownHolds(fit.coefficients[0]!, { column: x, cluster, events: fit.events })
      : null,
    coxLarger: hasEnd(fit) ? largerHolds(fit.coefficients[0]!) : null,
    coxFewRobust: hasEnd(fewFit) ? holds(fewFit.coefficients[0], 0) : null,
    coxFewShown: hasEnd(fewFit)
      ? shownHolds(fewFit.coefficients[0]!, { column: few, cluster, events: fewFit.events })
      : null,
    coxByEye: hasEnd(fitOf(byEye)) ? holds(fitOf(byEye).coefficients[0], 0) : null,
    concordance: holds(concordance({ time, event, score: x, cluster }), 0.5),
  };
}

function shownHolds(
  coefficient: Coefficient,
  { column, cluster, events }: { column: Float64Array; cluster: Int32Array; events: number },
): boolean | null {
  const isThin = isThinColumn([...column], cluster);
  const runsSmall = isThin || events < enoughFailures;
  return holds(clusteredEffect(coefficient, { level: settings.level, runsSmall }).ratio, 1);
}

/** With the larger of the robust and the model's error, whoever carries the column. */
function largerHolds(coefficient: Coefficient): boolean | null {
  return holds(clusteredEffect(coefficient, { level: settings.level, runsSmall: true }).ratio, 1);
}

function ofOutcomes(
  { failed, x, second }: { failed: Uint8Array; x: Float64Array; second: Float64Array },
  { cluster, few }: Carried,
): Told {
  const fitOf = (covariates: readonly Float64Array[]) =>
    logisticRegression({ outcome: failed, covariates, cluster });
  const [fit, fewFit, group] = [fitOf([x]), fitOf([few]), fitOf([second, x])];
  const scenario = (value: number) =>
    standardisedRate(group, [new Float64Array(failed.length).fill(value), x]);
  return {
    logisticRobust: hasEnd(fit) ? holds(fit.coefficients[1], 0) : null,
    logisticShown: hasEnd(fit)
      ? shownHolds(fit.coefficients[1]!, { column: x, cluster, events: rarer(fit) })
      : null,
    logisticLarger: hasEnd(fit) ? largerHolds(fit.coefficients[1]!) : null,
    logisticFewShown: hasEnd(fewFit)
      ? shownHolds(fewFit.coefficients[1]!, { column: few, cluster, events: rarer(fewFit) })
      : null,
    standardisedDifference: hasEnd(group)
      ? holds(standardisedDifference(group, { first: scenario(1), second: scenario(0) }), 0)
      : null,
  };
}

/** The failures or, where they are the more, the others: as the question counts them. */
function rarer({ events, rows }: { readonly events: number; readonly rows: number }): number {
  return Math.min(events, rows - events);
}
