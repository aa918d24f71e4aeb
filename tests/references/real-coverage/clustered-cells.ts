/**
 * The third table of real coverage: intervals that allow for two eyes of one patient, beside those that do
 * not, where 5 or 10% of patients, or all, give both eyes.
 *
 * Eyes are drawn as in `simulated-eyes.ts`; those of a patient fail together by a normal variable in common,
 * correlated 1/2 between the eyes (a Gaussian copula), and are followed to the same day. Eyes of the
 * difference are by turns of the first and the second group, so that two eyes of a patient are one in each.
 * A share is of the series in which the interval exists.
 */
import { clusteredComparison } from "../../../src/statistics/clustered-comparison.ts";
import { clusteredKaplanMeier } from "../../../src/statistics/clustered-kaplan-meier.ts";
import { clusteredProportion } from "../../../src/statistics/clustered-proportion.ts";
import { normalLowerTail, normalQuantile } from "../../../src/statistics/distributions.ts";
import { kaplanMeier } from "../../../src/statistics/kaplan-meier.ts";
import { newcombeDifference } from "../../../src/statistics/newcombe-difference.ts";
import { type RandomSource, seededRandom } from "../../../src/statistics/seeded-random.ts";
import { survivalAt } from "../../../src/statistics/survival-at.ts";
import { wilsonInterval } from "../../../src/statistics/wilson-interval.ts";
import { holds, sharesOver, type Told } from "./shares-of-series.ts";
import { failureDay } from "./simulated-eyes.ts";

export const bilateralShares = [0.05, 0.1, 1] as const;
export const settings = {
  ...{ seed: 20_250_303, replicates: 2000, level: 0.95, day: 180, correlation: 0.5 },
} as const;

export const columns = [
  "bilateral",
  "eyes",
  "rate",
  "wilson",
  "clusteredProportion",
  "kaplanMeier",
  "clusteredKaplanMeier",
  "newcombe",
  "clusteredDifference",
] as const;

/** Coverage of 95% intervals as shares; null where none of the series had one. */
export type ClusteredCell = Readonly<Record<"bilateral" | "eyes" | "rate", number>> &
  Readonly<Record<(typeof columns)[number], number | null>>;

interface Population {
  readonly eyes: number;
  readonly rate: number;
  /** The share of patients who give both eyes. */
  readonly bilateral: number;
}

/** One cell of the table; the seed is that of the settings and the cell's own place. */
export function clusteredCell(population: Population): ClusteredCell {
  const { eyes, rate, bilateral } = population;
  const place = eyes * 1000 + Math.round(rate * 1000) + Math.round(bilateral * 100) * 1_000_000;
  const random = seededRandom(settings.seed + place);
  const shares = sharesOver(settings.replicates, () => oneSeries(population, random));
  return { bilateral, eyes, rate, ...shares } as ClusteredCell;
}

function oneSeries(population: Population, random: RandomSource): Told {
  const { eyes, rate } = population;
  const { time, event, failed, patient } = drawnEyes(population, random);
  const count = failed.reduce((sum, y) => sum + y, 0);
  const at = (curve: Parameters<typeof survivalAt>[0]) =>
    holds(survivalAt(curve, settings.day), 1 - rate);
  const group = (side: number) => {
    const own = [...failed.keys()].filter((i) => i % 2 === side);
    return { failed: own.map((i) => failed[i]!), cluster: own.map((i) => patient[i]!) };
  };
  const part = ({ failed: list }: { failed: number[] }) => ({
    failed: list.reduce((sum, y) => sum + y, 0),
    total: list.length,
  });
  const [first, second] = [group(0), group(1)];
  return {
    wilson: holds(wilsonInterval(count, eyes), rate),
    clusteredProportion: holds(clusteredProportion(failed, patient), rate),
    kaplanMeier: at(kaplanMeier({ time, event })),
    clusteredKaplanMeier: at(clusteredKaplanMeier({ time, event, cluster: patient })),
    newcombe: holds(newcombeDifference({ first: part(first), second: part(second) }), 0),
    clusteredDifference: holds(clusteredComparison(first, second)!.difference, 0),
  };
}

/** So many eyes of patients, of whom the stated share give two that lie next to each other. */
export function drawnEyes({ eyes, rate, bilateral }: Population, random: RandomSource) {
  const [time, event] = [new Float64Array(eyes), new Uint8Array(eyes)];
  const [failed, patient] = [new Uint8Array(eyes), new Int32Array(eyes)];
  const spread = Math.sqrt(settings.correlation);
  const own = Math.sqrt(1 - settings.correlation);
  for (let eye = 0, id = 0; eye < eyes; id++) {
    const shared = normalQuantile(random.uniform());
    const end = 90 + random.below(631);
    const both = random.uniform() < bilateral ? 2 : 1;
    for (let k = 0; k < both && eye < eyes; k++, eye++) {
      const z = spread * shared + own * normalQuantile(random.uniform());
      const failure = failureDay(normalLowerTail(z), { rate, day: settings.day });
      time[eye] = Math.min(failure, end);
      event[eye] = failure <= end ? 1 : 0;
      failed[eye] = failure <= settings.day ? 1 : 0;
      patient[eye] = id;
    }
  }
  return { time, event, failed, patient };
}
