import type { CurveGroup } from "./attachment-curves.ts";

export interface CurvePoint {
  readonly time: number;
  readonly survival: number;
}

export interface BandPoint {
  readonly time: number;
  readonly lower: number;
  readonly upper: number;
}

/** Where a group's curve ends: at its last follow-up or at the last day drawn. */
export function lastDay(group: CurveGroup, until: number): number {
  return Math.min(group.end, until);
}

/** The share still attached on a day, by the last step up to it; 1 before the first. */
export function survivalAt(group: CurveGroup, day: number): number {
  return group.steps.findLast((step) => step.time <= day)?.survival ?? 1;
}

/** Whether too few eyes remain on a day for the curve to be drawn in full. */
export function isDimmed({ dimFrom }: CurveGroup, day: number): boolean {
  return dimFrom !== undefined && day >= dimFrom;
}

/** Corners of a step curve from day 0, all attached, to its last day; no points without eyes. */
export function curvePoints(group: CurveGroup, until: number): readonly CurvePoint[] {
  if (group.total === 0) return [];
  const end = lastDay(group, until);
  const steps = group.steps.filter((step) => step.time <= end);
  return [
    { time: 0, survival: 1 },
    ...steps.map(({ time, survival }) => ({ time, survival })),
    { time: end, survival: survivalAt(group, end) },
  ];
}

/** Runs of steps that have an interval; each ends where the interval ends. */
export function bandRuns(group: CurveGroup, until: number): readonly (readonly BandPoint[])[] {
  const end = lastDay(group, until);
  const steps = group.steps.filter((step) => step.time <= end);
  const runs: BandPoint[][] = [];
  let run: BandPoint[] = [];
  steps.forEach(({ time, lower, upper }, i) => {
    const stop = steps[i + 1]?.time ?? end;
    if (lower === null || upper === null) {
      run = [];
      return;
    }
    if (run.length === 0) runs.push(run);
    else run.pop();
    run.push({ time, lower, upper }, { time: stop, lower, upper });
  });
  return runs;
}

/** Step points before and from a day on; the first part reaches up to that day. */
export function splitAt<Point extends { readonly time: number }>(
  points: readonly Point[],
  day: number | undefined,
): { readonly before: readonly Point[]; readonly after: readonly Point[] } {
  if (day === undefined) return { before: points, after: [] };
  const before = points.filter((point) => point.time < day);
  const after = points.filter((point) => point.time >= day);
  const last = before.at(-1);
  if (last === undefined || after.length === 0) return { before, after };
  const join = { ...last, time: day };
  return { before: [...before, join], after: [join, ...after] };
}

/** Times thinned so that what is drawn stands at least `gap` days from its neighbour. */
export function thinned<Point extends { readonly time: number }>(
  points: readonly Point[],
  gap: number,
): readonly Point[] {
  const kept: Point[] = [];
  for (const point of points) {
    const last = kept.at(-1);
    if (last === undefined || point.time - last.time >= gap) kept.push(point);
  }
  return kept;
}
