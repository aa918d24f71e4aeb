import { type Bootstrap, bootstrap } from "../../statistics/bootstrap.ts";
import { percentileInterval } from "../../statistics/bootstrap-interval.ts";
import type { Interval } from "../../statistics/interval.ts";
import { logisticRegression } from "../../statistics/logistic-regression.ts";
import type { Design } from "./standardisation-design.ts";

export interface Resampling {
  readonly seed: number;
  readonly replicates: number;
}

export interface ResampledIntervals {
  /** By group. */
  readonly rates: readonly Interval[];
  /** By group, less the reference. */
  readonly differences: readonly Interval[];
}

/**
 * Percentile intervals of the standardised rates and their differences from the bootstrap of
 * patients: model and case mix are worked out afresh on each resample. Null where too many of the
 * resamples have no finite estimate. The same seed gives the same intervals.
 */
export function resampledIntervals(
  design: Design,
  sample: Resampling & {
    readonly outcome: readonly boolean[];
    readonly reference: number;
    readonly cluster?: readonly string[];
  },
): ResampledIntervals | null {
  const { seed, replicates, outcome, reference, cluster } = sample;
  const drawn: (readonly number[] | null)[] = [];
  const first = bootstrap(
    {
      rows: outcome.length,
      ...(cluster === undefined ? {} : { cluster }),
      // All rates of a resample are worked out at once, and kept for the other intervals.
      statistic: (rows) => {
        const rates = ratesOn(rows, design, outcome);
        drawn.push(rates);
        return rates?.[0] ?? null;
      },
    },
    { seed, replicates },
  );
  if (first === null) return null;
  const intervalOf = (value: (rates: readonly number[]) => number): Interval | null =>
    percentileInterval(resultOf(drawn, first, value));
  const all = design.scenarios.map((_, position) => position);
  const rates = all.map((g) => intervalOf((each) => each[g] ?? Number.NaN));
  const differences = all.map((g) =>
    intervalOf((each) => (each[g] ?? Number.NaN) - (each[reference] ?? Number.NaN)),
  );
  if ([...rates, ...differences].includes(null)) return null;
  return { rates: rates as Interval[], differences: differences as Interval[] };
}

/** The first of `drawn` is of all rows; the others are the resamples. */
function resultOf(
  [all, ...resamples]: readonly (readonly number[] | null)[],
  first: Bootstrap,
  value: (rates: readonly number[]) => number,
): Bootstrap {
  const values = resamples.flatMap((rates) => (rates === null ? [] : [value(rates)]));
  return {
    ...first,
    estimate: all === null || all === undefined ? Number.NaN : value(all),
    replicates: Float64Array.from(values).sort(),
    undefinedReplicates: resamples.length - values.length,
  };
}

/** The rate of each scenario over the drawn rows, each weighed by how often it was drawn. */
function ratesOn(
  rows: Int32Array,
  { covariates, scenarios }: Design,
  outcome: readonly boolean[],
): readonly number[] | null {
  const times = new Map<number, number>();
  for (const row of rows) times.set(row, (times.get(row) ?? 0) + 1);
  const drawn = [...times.keys()];
  const weight = [...times.values()];
  const fit = logisticRegression({
    outcome: drawn.map((row) => outcome[row] ?? false),
    covariates: covariates.map((column) => drawn.map((row) => column[row] ?? 0)),
    weight,
  });
  if (!fit.converged || fit.infinite.length > 0 || fit.aliased.length > 0) return null;
  const [intercept = 0, ...slopes] = fit.coefficients.map(({ estimate }) => estimate);
  return scenarios.map((scenario) => {
    const total = drawn.reduce((sum, row, i) => {
      const logit = slopes.reduce(
        (eta, slope, c) => eta + slope * (scenario[c]?.[row] ?? 0),
        intercept,
      );
      return sum + (weight[i] ?? 0) / (1 + Math.exp(-logit));
    }, 0);
    return total / rows.length;
  });
}
