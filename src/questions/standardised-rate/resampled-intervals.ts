import { type Bootstrap, bootstrap } from "../../statistics/bootstrap.ts";
import { percentileInterval } from "../../statistics/bootstrap-interval.ts";
import type { Interval } from "../../statistics/interval.ts";
import { keptOver } from "../../statistics/long-work.ts";

export interface Resampling {
  readonly seed: number;
  readonly replicates: number;
}

/** The rates of all groups on a resample of rows; null where the model has no finite estimate. */
export type RatesOn = (rows: Int32Array) => readonly number[] | null;

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
  ratesOn: RatesOn,
  sample: Resampling & {
    readonly rows: number;
    readonly cluster: Int32Array | undefined;
    readonly reference: number;
  },
): ResampledIntervals | null {
  const { seed, replicates, rows, reference, cluster } = sample;
  const drawn = keptOver((): (readonly number[] | null)[] => []);
  const first = bootstrap(
    {
      rows,
      ...(cluster === undefined ? {} : { cluster }),
      // All rates of a resample are worked out at once, and kept for the other intervals.
      statistic: (resample) => {
        const rates = ratesOn(resample);
        drawn.push(rates?.every(Number.isFinite) === true ? rates : null);
        return drawn.at(-1)?.[0] ?? null;
      },
    },
    { seed, replicates },
  );
  if (first === null) return null;
  const intervalOf = (value: (rates: readonly number[]) => number): Interval | null =>
    percentileInterval(resultOf(drawn, first, value));
  const groups = drawn[0]?.map((_, position) => position) ?? [];
  const rates = groups.map((g) => intervalOf((each) => each[g] ?? Number.NaN));
  const differences = groups.map((g) =>
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
