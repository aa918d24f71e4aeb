import type { Interval } from "../../../statistics/interval.ts";
import { type PChartPoint, pChart } from "../../../statistics/p-chart.ts";
import { wilsonInterval } from "../../../statistics/wilson-interval.ts";
import type { Group } from "../../answering/grouping.ts";
import { among, type JudgedEyes } from "../../people/judged-eyes.ts";

/** One period of a p-chart. */
export interface CountedPeriod {
  readonly label: string;
  readonly judged: JudgedEyes;
  readonly failedEyes: readonly number[];
  readonly interval: Interval | null;
  readonly centre: number;
  readonly point: PChartPoint;
}

export const periodLimits = ["exact", "three-sigma"] as const;
export type PeriodLimits = (typeof periodLimits)[number];

/** Each period's rate in its own limits around one centre; empty where no outcome is known. */
export function countedPeriods(
  groups: readonly Group[],
  judged: JudgedEyes,
  options: { readonly target?: number | undefined; readonly limits: PeriodLimits },
): CountedPeriod[] {
  const eyes = groups.map((group) => among(judged, group.eyes));
  const counts = eyes.map(({ known, hasFailed }) => ({
    failed: known.filter(hasFailed).length,
    total: known.length,
  }));
  const { target, limits } = options;
  const chart = pChart(counts, { limits, ...(target === undefined ? {} : { target }) });
  if (chart === null) return [];
  return groups.flatMap(({ label }, i) => {
    const [own, point, count] = [eyes[i], chart.points[i], counts[i]];
    if (own === undefined || point === undefined || count === undefined) return [];
    return {
      label,
      judged: own,
      failedEyes: own.known.filter(own.hasFailed),
      interval: wilsonInterval(count.failed, count.total),
      centre: chart.centre,
      point,
    };
  });
}
