/**
 * The second table of real coverage and size: limits of ratios, of incidence with a competing cause, of
 * the restricted mean, of models and of discrimination, and the tests that compare groups and curves.
 *
 * Ratios of two groups are exact sums over all outcomes, as in `coverage-cells.ts`; the rest is simulated,
 * each cell from a seed of its own. Two groups share the eyes by halves. A competing cause happens to a
 * fifth of the eyes by the day. Models have one covariate, standard normal, with no effect; a c-statistic
 * that is 1/2, or, where scores are apart by a standard deviation, 0.7602. A share is of the series in which
 * the interval or the test exists; how often Cox's model and the c-statistic's intervals do not is given.
 */
import { aalenJohansen } from "../../../src/statistics/aalen-johansen.ts";
import { cochranArmitage } from "../../../src/statistics/cochran-armitage.ts";
import { binomialCounts } from "../../../src/statistics/count-distributions.ts";
import { coxRegression } from "../../../src/statistics/cox-regression.ts";
import { normalLowerTail, normalQuantile } from "../../../src/statistics/distributions.ts";
import { grayTest } from "../../../src/statistics/gray-test.ts";
import { incidenceAt } from "../../../src/statistics/incidence-at.ts";
import { kaplanMeier } from "../../../src/statistics/kaplan-meier.ts";
import { logRank, logRankTrend } from "../../../src/statistics/log-rank.ts";
import { logisticFirthTest } from "../../../src/statistics/logistic-firth.ts";
import { mantelHaenszelDifference } from "../../../src/statistics/mantel-haenszel.ts";
import { midPInterval } from "../../../src/statistics/mid-p-interval.ts";
import { scoreOddsRatio, scoreRatio } from "../../../src/statistics/miettinen-nurminen.ts";
import { riskRatio } from "../../../src/statistics/ratio-estimates.ts";
import { restrictedMean } from "../../../src/statistics/restricted-mean.ts";
import { rocArea } from "../../../src/statistics/roc-area.ts";
import type { RocLimits } from "../../../src/statistics/roc-limits.ts";
import { type RandomSource, seededRandom } from "../../../src/statistics/seeded-random.ts";
import type { Part, TwoByTwo } from "../../../src/statistics/two-by-two.ts";
import { holds, type Limits, sharesAndUnknown, type Told } from "./shares-of-series.ts";
import { SHAPE, type Simulation, simulatedEyes } from "./simulated-eyes.ts";

export const settings = { seed: 20_250_202, replicates: 1000, level: 0.95, day: 180 } as const;

/** Coverage of intervals, then size of tests, as shares; null where none of the series had one. */
export type FurtherCell = Readonly<Record<"eyes" | "rate", number>> &
  Readonly<Record<(typeof columns)[number], number | null>>;

export const columns = [
  "eyes",
  "rate",
  "midP",
  "scoreRatio",
  "scoreOddsRatio",
  "katzRatio",
  "mantelHaenszelDifference",
  "incidence",
  "restrictedMean",
  "coxWald",
  "coxUnknown",
  "firthProfile",
  "deLong",
  "deLongUnknown",
  "rocLogit",
  "rocScore",
  "rocUnknown",
  "deLongApart",
  "rocLogitApart",
  "rocScoreApart",
  "stratifiedLogRank",
  "gehan",
  "trend",
  "gray",
  "cochranArmitage",
  "coxLikelihoodRatio",
  "firthTest",
] as const;

/** One cell of the table. */
export function furtherCell(eyes: number, rate: number): FurtherCell {
  const random = seededRandom(settings.seed + eyes * 1000 + Math.round(rate * 1000));
  const half = Math.floor(eyes / 2);
  const counts = binomialCounts(eyes, rate);
  const ratio = (limits: (table: TwoByTwo) => Limits | null) =>
    overTables(half, rate, (table) => holds(limits(table), 1));
  let midP = 0;
  for (let x = 0; x <= eyes; x++) {
    if (holds(midPInterval(x, eyes), rate) === true) midP += counts.probability(x);
  }
  return {
    eyes,
    rate,
    midP,
    scoreRatio: ratio(scoreRatio),
    scoreOddsRatio: ratio(scoreOddsRatio),
    katzRatio: ratio(riskRatio),
    mantelHaenszelDifference: overTables(half, rate, (table) =>
      holds(mantelHaenszelDifference([table]), 0),
    ),
    ...simulatedShares({ eyes, rate, day: settings.day, random }),
  };
}

/** The probability over both counts that `isTrue`, among the tables where it is known. */
function overTables(
  total: number,
  rate: number,
  isTrue: (table: TwoByTwo) => boolean | null,
): number | null {
  const counts = binomialCounts(total, rate);
  const likely = Array.from({ length: total + 1 }, (_, x) => x).filter(
    (x) => counts.probability(x) > 1e-9,
  );
  let known = 0;
  let share = 0;
  for (const x of likely) {
    for (const y of likely) {
      const part = (failed: number): Part => ({ failed, total });
      const is = isTrue({ first: part(x), second: part(y) });
      const probability = counts.probability(x) * counts.probability(y);
      if (is !== null) known += probability;
      if (is === true) share += probability;
    }
  }
  return known === 0 ? null : share / known;
}

type Simulated = Omit<
  FurtherCell,
  | "eyes"
  | "rate"
  | "midP"
  | "scoreRatio"
  | "scoreOddsRatio"
  | "katzRatio"
  | "mantelHaenszelDifference"
>;

/** Every simulated column, all from the same series. */
function simulatedShares(simulation: Simulation): Simulated {
  const truth = meanToDay(simulation);
  const { shares, unknown } = sharesAndUnknown(settings.replicates, () =>
    oneSeries(simulation, truth),
  );
  return {
    ...shares,
    coxUnknown: unknown.coxWald,
    deLongUnknown: unknown.deLong,
    rocUnknown: unknown.rocScore,
  } as Simulated;
}

function oneSeries(simulation: Simulation, truth: number): Told {
  const { eyes, rate, day, random } = simulation;
  const { time, event } = simulatedEyes(simulation);
  const group = Array.from({ length: eyes }, (_, i) => i % 2);
  const thirds = Array.from({ length: eyes }, (_, i) => i % 3);
  const strata = Array.from({ length: eyes }, (_, i) => (i >> 1) % 4);
  const x = Float64Array.from({ length: eyes }, () => normalQuantile(random.uniform()));
  const curve = kaplanMeier({ time, event });
  const competing = withCompeting({ time, event }, simulation);
  return {
    incidence: holds(incidenceAt(aalenJohansen({ ...competing, causes: 2 }), 1, day), rate * 0.8),
    restrictedMean: holds(restrictedMean(curve, day), truth),
    ...models({ time, event, x }, { rate, random }),
    stratifiedLogRank: logRank({ time, event, group, strata }).pValue <= 0.05,
    gehan: logRank({ time, event, group, weighting: "Gehan" }).pValue <= 0.05,
    trend: logRankTrend(logRank({ time, event, group: thirds })).pValue <= 0.05,
    gray: grayTest({ ...competing, group }).pValue <= 0.05,
  };
}

/** Each failure is by the other cause with probability 1/5: the first has 4/5 of the rate by the day. */
function withCompeting(
  { time, event }: { time: Float64Array; event: Uint8Array },
  { random }: Simulation,
) {
  return {
    time,
    cause: Int32Array.from(event, (e) => (e === 0 ? 0 : random.below(5) === 0 ? 2 : 1)),
  };
}

function models(
  { time, event, x }: { time: Float64Array; event: Uint8Array; x: Float64Array },
  { rate, random }: { rate: number; random: RandomSource },
): Told {
  const outcome = Uint8Array.from(x, () => (random.uniform() < rate ? 1 : 0));
  const thirds = [0, 1, 2].map((third) => {
    const own = outcome.filter((_, i) => i % 3 === third);
    return { failed: own.reduce((sum, y) => sum + y, 0), total: own.length };
  });
  const cox = coxRegression({ time, event, covariates: [x] });
  const [slope] = cox.coefficients;
  const isKnown = cox.converged && cox.aliased.length === 0 && cox.infinite.length === 0;
  // the profile limits hold 0 just where the penalised test of 0 is above 5%
  const isFirthBeyond = logisticFirthTest({ outcome, covariates: [x] }).pValue <= 0.05;
  return {
    coxWald: isKnown ? holds(slope!, 0) : null,
    coxLikelihoodRatio: cox.aliased.length > 0 ? null : cox.likelihoodRatio.pValue <= 0.05,
    firthProfile: !isFirthBeyond,
    firthTest: isFirthBeyond,
    ...areas(outcome, x),
    cochranArmitage: cochranArmitage(thirds).pValue <= 0.05,
  };
}

/** P(a normal variable with mean 1 is above one with mean 0), F(1 / sqrt 2). */
const APART = normalLowerTail(Math.SQRT1_2);

function areas(outcome: Uint8Array, x: Float64Array): Told {
  const apart = x.map((value, i) => value + outcome[i]!);
  const equal = (limits: RocLimits) => holds(rocArea(outcome, x, { limits }), 0.5);
  const other = (limits: RocLimits) => holds(rocArea(outcome, apart, { limits }), APART);
  return {
    deLong: equal("DeLong"),
    rocLogit: equal("logit"),
    rocScore: equal("score"),
    deLongApart: other("DeLong"),
    rocLogitApart: other("logit"),
    rocScoreApart: other("score"),
  };
}

/** The true restricted mean: the sum of the probabilities of being free of failure on each day. */
function meanToDay({ rate, day }: Simulation): number {
  const scale = day / (-Math.log1p(-rate)) ** (1 / SHAPE);
  let mean = 0;
  for (let t = 0; t < day; t++) mean += Math.exp(-((t / scale) ** SHAPE));
  return mean;
}
