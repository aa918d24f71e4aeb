/**
 * The ninth table of real coverage: rates standardised over a normal covariate, with limits by the
 * bootstrap as the question has them: two groups by turns without a difference, Cox's model with follow-up
 * cut at the day, or logistic regression of outcomes that are all known. The covariate multiplies the
 * hazard, or the odds, by 2 a standard deviation. A bootstrap takes hundreds of fits, so there are fewer
 * series and fewer resamples than the question's 1000.
 */
import { coxRates } from "../../../src/questions/standardised-rate/cox-rates.ts";
import { logisticRates } from "../../../src/questions/standardised-rate/logistic-rates.ts";
import type {
  ModelRates,
  StandardiseInput,
} from "../../../src/questions/standardised-rate/model-rates.ts";
import { resampledIntervals } from "../../../src/questions/standardised-rate/resampled-intervals.ts";
import type { Design } from "../../../src/questions/standardised-rate/standardisation-design.ts";
import { normalQuantile } from "../../../src/statistics/distributions.ts";
import { type RandomSource, seededRandom } from "../../../src/statistics/seeded-random.ts";
import { eyeCounts, failureRates } from "./coverage-cells.ts";
import type { CoverageTable } from "./coverage-table.ts";
import { drawnOutcomes, EFFECT } from "./drawn-outcomes.ts";
import { holds, sharesAndUnknown, type Told } from "./shares-of-series.ts";
import { failureDay } from "./simulated-eyes.ts";

const settings = { seed: 20_260_808, replicates: 500, resamples: 200, level: 0.95, day: 180 };

export const resampledTable: CoverageTable = {
  name: "resampled-coverage",
  settings,
  about: [
    "# Real coverage of 95% intervals by the bootstrap, in percent",
    "",
    "What is drawn is in `resampled-cells.ts`. All simulated:",
    `${settings.replicates} series a cell with ${settings.resamples} resamples each, seed ${settings.seed}, error about`,
    "1.0. Shares are of the series in which the interval exists and at least five eyes failed; where few series",
    "reach five, those that do have more failures than the rate has it, and limits of a rate miss it.",
  ],
  places: ["rate", "eyes"],
  at: failureRates.flatMap((rate) => eyeCounts.map((eyes) => ({ rate, eyes }))),
  columns: {
    coxRate: "standardised rate, Cox",
    coxDifference: "standardised difference, Cox",
    coxUnknown: "(none, Cox)",
    logisticRate: "standardised rate, logistic",
    logisticDifference: "standardised difference, logistic",
    logisticUnknown: "(none, logistic)",
  },
  cell: ({ rate = 0, eyes = 0 }) => {
    const random = seededRandom(settings.seed + eyes * 1000 + Math.round(rate * 1000));
    const { shares, unknown } = sharesAndUnknown(settings.replicates, () => {
      const seed = random.below(1_000_000_000);
      const [cox, logistic] = [byCox({ eyes, rate, random }), byLogistic({ eyes, rate, random })];
      return { ...told("cox", cox, { rate, seed }), ...told("logistic", logistic, { rate, seed }) };
    });
    return {
      ...shares,
      coxUnknown: unknown.coxRate ?? null,
      logisticUnknown: unknown.logisticRate ?? null,
    };
  },
};

interface Drawn {
  readonly eyes: number;
  readonly rate: number;
  readonly random: RandomSource;
}

/** A model of the rates and how many rows it has; null under five failures or without an end. */
type Made = { readonly ratesOn: ModelRates["ratesOn"]; readonly rows: number } | null;

function told(
  name: string,
  model: Made,
  { rate, seed }: { readonly rate: number; readonly seed: number },
): Told {
  const sample = { seed, replicates: settings.resamples, cluster: undefined, reference: 0 };
  const limits =
    model === null ? null : resampledIntervals(model.ratesOn, { ...sample, rows: model.rows });
  return {
    [`${name}Rate`]: holds(limits?.rates[0], rate),
    [`${name}Difference`]: holds(limits?.differences[1], 0),
  };
}

/** A normal covariate, and failures by the day whose hazard it multiplies; the mean risk is the rate. */
function byCox({ eyes, rate, random }: Drawn): Made {
  const x = Array.from({ length: eyes }, () => normalQuantile(random.uniform()));
  const hazard = hazardFor(rate);
  const { day } = settings;
  const time: number[] = [];
  const event: boolean[] = [];
  for (const value of x) {
    const own = 1 - Math.exp(-hazard * Math.exp(EFFECT * value));
    const failure = failureDay(random.uniform(), { rate: own, day });
    const end = Math.min(day, 90 + random.below(631));
    time.push(Math.min(failure, end));
    event.push(failure <= end);
  }
  const input = inputOf(eyes, (eye) => event[eye] === true);
  const followUp = { time: (eye: number) => time[eye]!, until: day };
  return made(coxRates(designOf(x), { ...input, followUp }), event);
}

function byLogistic(drawn: Drawn): Made {
  const { outcome, x } = drawnOutcomes(drawn);
  const hasFailed = (eye: number) => outcome[eye] === 1;
  const found = logisticRates(designOf([...x]), inputOf(drawn.eyes, hasFailed));
  return made(found, Array.from(outcome, Boolean));
}

function made(
  found: ReturnType<typeof coxRates | typeof logisticRates>,
  failed: readonly boolean[],
): Made {
  const few = failed.filter(Boolean).length < 5;
  return few || "problems" in found ? null : { ratesOn: found.model.ratesOn, rows: failed.length };
}

function designOf(x: readonly number[]): Design {
  const constant = (value: number) => x.map(() => value);
  const groups = x.map((_, i) => i % 2);
  return {
    covariates: [groups, x],
    names: ["g1", "x0"],
    scenarios: [
      [constant(0), x],
      [constant(1), x],
    ],
    levels: [],
    members: [],
  };
}

/** What the models read of the question's input: how many eyes, and no eye that is silent. */
function inputOf(eyes: number, hasFailed: (eye: number) => boolean): StandardiseInput {
  const data = { eyes: Array.from({ length: eyes }, (_, eye) => eye), columns: [], terms: [] };
  const input = { data, groups: [], reference: 0, hasFailed, followUp: undefined };
  return { ...input, given: { values: new Map() } } as unknown as StandardiseInput;
}

const found = new Map<number, number>();

/** The cumulative hazard at which the mean risk over the covariate is the rate, by halving. */
function hazardFor(rate: number): number {
  const known = found.get(rate);
  if (known !== undefined) return known;
  const ratios = Array.from({ length: 2000 }, (_, i) =>
    Math.exp(EFFECT * normalQuantile((i + 0.5) / 2000)),
  );
  let [low, high] = [0, 10];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    const mean =
      ratios.reduce((sum, ratio) => sum - Math.expm1(-middle * ratio), 0) / ratios.length;
    if (mean < rate) low = middle;
    else high = middle;
  }
  found.set(rate, low);
  return low;
}
