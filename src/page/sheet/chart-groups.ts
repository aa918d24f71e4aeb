import type { ChartRequest } from "../../charts/chart-request.ts";

/** Names of the groups of a chart that can be hidden; none where it has one or cannot hide any. */
export function groupsToHide(chart: ChartRequest | undefined): readonly string[] {
  if (chart?.draw !== "attachment curves" || chart.curves.groups.length < 2) return [];
  return chart.curves.groups.map(({ label }) => label);
}

/** The chart without the curves of some groups; hues and dashes of the others stay. */
export function withoutGroups(chart: ChartRequest, hidden: ReadonlySet<number>): ChartRequest {
  if (chart.draw !== "attachment curves" || hidden.size === 0) return chart;
  const groups = chart.curves.groups.map((group, i) =>
    hidden.has(i) ? { ...group, total: 0, steps: [], censored: [] } : group,
  );
  return { ...chart, curves: { ...chart.curves, groups } };
}
