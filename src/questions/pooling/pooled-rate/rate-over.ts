import { chiSquareTest } from "../../../statistics/chi-square-test.ts";
import { clusteredProportion } from "../../../statistics/clustered-proportion.ts";
import type { Interval } from "../../../statistics/interval.ts";
import { wilsonInterval } from "../../../statistics/wilson-interval.ts";
import type { PooledGroup } from "../departments.ts";
import { exactCounts, rateCorners, sumOf } from "../pooled-counts.ts";
import { type ShareFailed, shareFailed } from "../share-failed.ts";
import { timesOfGroup } from "../times-of-group.ts";

/** A rate over departments: the lowest and the highest that their counts allow. */
export interface PooledRate {
  readonly label: string;
  readonly group: PooledGroup;
  /** Failed of those known, with the interval that holds both. */
  readonly lowest: number | null;
  readonly highest: number | null;
  readonly interval: Interval | null;
  /** One less the Kaplan–Meier estimate at the window's end, all eyes in. */
  readonly curve: ShareFailed | null;
  readonly heterogeneity: Heterogeneity | null;
}

/** Whether departments differ more than chance explains, among eyes known. */
export interface Heterogeneity {
  readonly p: number;
  readonly df: number;
  readonly iSquared: number;
}

/** What a rate leads with. */
export interface LeadingRate {
  readonly lowest: number;
  readonly highest: number;
  readonly lower: number;
  readonly upper: number;
  readonly method: string;
  readonly isByCurve: boolean;
}

export function rateOver(group: PooledGroup): PooledRate {
  const corners = rateCorners(group.parts);
  const { lowest, highest } = corners;
  const share = ({ failed, total }: typeof lowest) => (total === 0 ? null : failed / total);
  const days = group.parts[0]?.file.definition.days ?? 0;
  return {
    label: group.label,
    group,
    lowest: share(lowest),
    highest: share(highest),
    interval: clusteredOver(group) ?? intervalOf(corners),
    curve: shareFailed(timesOfGroup(group), days, days),
    heterogeneity: heterogeneityOf(group),
  };
}

/**
 * The share of those known where all are, else the curve's at the window's end: a failure is known at
 * once and a success only then, so that the share among the known runs high. Null: not estimable.
 */
export function leadingRate(rate: PooledRate): LeadingRate | null {
  const { lowest, highest, interval, curve, group } = rate;
  if (lowest === null || highest === null || interval === null) return null;
  const areAllKnown = sumOf(group.parts, "unknown").most === 0;
  if (!areAllKnown && curve !== null) {
    return { ...curve, method: "Kaplan–Meier log-log", isByCurve: true };
  }
  const { lower, upper, method } = interval;
  return { lowest, highest, lower, upper, method, isByCurve: false };
}

function intervalOf({ lowest, highest }: ReturnType<typeof rateCorners>): Interval | null {
  const low = wilsonInterval(lowest.failed, lowest.total);
  const high = wilsonInterval(highest.failed, highest.total);
  return low === null || high === null ? null : { ...low, upper: high.upper };
}

/**
 * Allowing for two eyes of a patient where every department tells how many patients have both eyes
 * known and how they fared: single eyes and pairs are then all that the ratio estimator needs.
 */
function clusteredOver({ parts }: PooledGroup): Interval | null {
  const exact = exactCounts(rateCorners(parts));
  const pairs = parts.map(({ group }) => group?.pairs);
  if (exact === undefined || exact.total === 0 || !pairs.every((each) => each !== undefined))
    return null;
  const sum = (name: "none" | "one" | "both") => pairs.reduce((all, each) => all + each[name], 0);
  const [none, one, both] = [sum("none"), sum("one"), sum("both")];
  if (none + one + both === 0) return null;
  const failedSingly = exact.failed - one - 2 * both;
  const single = exact.total - 2 * (none + one + both);
  return clusteredProportion(
    ...eyesOfPatients([
      [failedSingly, [1]],
      [single - failedSingly, [0]],
      [none, [0, 0]],
      [one, [0, 1]],
      [both, [1, 1]],
    ]),
  );
}

/** So many patients with these outcomes each: outcomes and patients, an eye each. */
function eyesOfPatients(
  counts: readonly (readonly [number, readonly number[]])[],
): [number[], number[]] {
  const patients = counts.flatMap(([number, outcomes]) =>
    Array.from({ length: number }, () => outcomes),
  );
  return [patients.flat(), patients.flatMap((outcomes, patient) => outcomes.map(() => patient))];
}

/** Higgins and Thompson, Statistics in Medicine 2002;21:1539. */
function heterogeneityOf({ parts }: PooledGroup): Heterogeneity | null {
  const tables = parts.map((part) => exactCounts(rateCorners([part])));
  if (!tables.every((each) => each !== undefined)) return null;
  const test = chiSquareTest(tables.map(({ failed, total }) => [failed, total - failed]));
  const { statistic, degreesOfFreedom: df, pValue: p } = test;
  if (df === 0) return null;
  return { p, df, iSquared: statistic <= df ? 0 : (statistic - df) / statistic };
}
