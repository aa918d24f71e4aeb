import type { Monitoring, MonitoringLine } from "../../../charts/monitoring.ts";
import { dayText } from "../../../formula/calendar.ts";
import type { FigureRecord } from "../../answer.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import type { PersonSeries } from "../person-series.ts";
import { placesOf } from "../series-words.ts";
import type { Resets } from "./resets.ts";
import type { CusumSignal, WatchedDirection } from "./watched-direction.ts";

/** What the sentence, the table and the chart of a CUSUM are all made from. */
export interface CusumParts {
  readonly series: PersonSeries;
  readonly worse: WatchedDirection;
  readonly better: WatchedDirection;
  readonly runLength: number;
  readonly resets: Resets;
  /** The positions that the resets fall on. */
  readonly resetAt: readonly number[];
}

/** The eyes of the run behind a signal. */
export function runOf({ series }: CusumParts, { from, position }: CusumSignal) {
  const eyes = series.eyes.slice(from, position + 1);
  const failed = eyes.filter((_, i) => series.failed[from + i]);
  const expected = series.risks.slice(from, position + 1).reduce((sum, risk) => sum + risk, 0);
  return { eyes, failed, expected };
}

/** Up, the sum for more failures; down, that for fewer; failed eyes marked on the upper one. */
export function drawnCusum(parts: CusumParts, picks: PickBook): Monitoring {
  const { series, worse, better, resetAt, resets } = parts;
  const limits = [
    { value: worse.limit, label: `limit ${worse.limit.toFixed(2)}` },
    { value: -better.limit, label: `limit ${better.limit.toFixed(2)}` },
  ];
  return {
    places: placesOf(series),
    across: series.isByDay ? "operations in order, by month" : "operations in order",
    panels: [
      {
        title: `sum of log-likelihood: up for ${oddsWords(worse.oddsRatio)}, down for ${oddsWords(better.oddsRatio)}`,
        kind: "number",
        lines: [...linesOf(worse, 1, resetAt), ...linesOf(better, -1, resetAt)],
        dots: series.eyes.flatMap((eye, i) => {
          if (!series.failed[i]) return [];
          const pick = picks.add(`eye${i}`, `${series.person.code}, operation ${i + 1}`, [eye]);
          const at = { at: i + 1, value: worse.values[i] ?? 0, tone: "failed" as const };
          return [pick === undefined ? at : { ...at, pick }];
        }),
        references: limits,
        signals: [...signalsOf(parts, worse, 1), ...signalsOf(parts, better, -1)],
        breaks: resetAt.map((at, i) => ({
          at: at + 0.5,
          label: `reset ${dayText(resets.each[i]?.day ?? 0)}`,
        })),
      },
    ],
  };
}

/** A line for each stretch between signals and resets, from 0. */
function linesOf(
  { values, signals }: WatchedDirection,
  side: 1 | -1,
  resetAt: readonly number[],
): MonitoringLine[] {
  const starts = [0, ...signals.map(({ position }) => position + 1), ...resetAt];
  const ordered = [...new Set(starts)].sort((a, b) => a - b).filter((at) => at < values.length);
  return ordered.map((start, i) => ({
    points: [
      { at: start, value: 0 },
      ...values
        .slice(start, ordered[i + 1] ?? values.length)
        .map((value, k) => ({ at: start + k + 1, value: value === 0 ? 0 : side * value })),
    ],
  }));
}

function signalsOf(parts: CusumParts, direction: WatchedDirection, side: 1 | -1) {
  return direction.signals.map((signal) => {
    const day = parts.series.days[signal.position];
    return {
      at: signal.position + 1,
      value: side * (direction.values[signal.position] ?? 0),
      label: typeof day === "number" ? dayText(day) : `operation ${signal.position + 1}`,
      pick: runKey(direction, signal),
    };
  });
}

export function runKey({ oddsRatio }: WatchedDirection, { position }: CusumSignal): string {
  return `${oddsRatio > 1 ? "worse" : "better"}:${position}`;
}

/** "doubled odds", "halved odds", "odds 1.5 times as high". */
export function oddsWords(oddsRatio: number): string {
  if (oddsRatio === 2) return "doubled odds";
  if (oddsRatio === 0.5) return "halved odds";
  return `odds ${Number(oddsRatio.toPrecision(3))} times as high`;
}

export function cusumFigures(parts: CusumParts): FigureRecord {
  const { series, worse, better, runLength, resetAt, resets } = parts;
  const failed = series.failed.filter(Boolean).length;
  const [first] = worse.signals;
  const day = first === undefined ? null : series.days[first.position];
  return {
    surgeon: series.person.code,
    operations: series.eyes.length,
    failed,
    expected: series.risks.reduce((sum, risk) => sum + risk, 0),
    headline: `${failed} of ${series.eyes.length}`,
    headline_rate: series.eyes.length === 0 ? null : failed / series.eyes.length,
    run_length_asked: runLength,
    has_signal: worse.signals.length > 0,
    signal_operation: first === undefined ? null : first.position + 1,
    signal_day: typeof day === "number" ? dayText(day) : null,
    resets: resetAt.length,
    reset_because: resets.each.map(({ day, because }) => ({ day: dayText(day), because })),
    not_known: series.judged.unknown.length,
    too_recent: series.judged.tooRecent.length,
    worse: directionFigures(parts, worse),
    better: directionFigures(parts, better),
  };
}

function directionFigures(parts: CusumParts, direction: WatchedDirection): FigureRecord {
  return {
    odds_ratio: direction.oddsRatio,
    limit: direction.limit,
    run_length_in_control: direction.runLengthInControl,
    run_length_changed: direction.runLengthChanged,
    false_signal_within: direction.falseWithin,
    noticed_within: direction.noticedWithin,
    values: [...direction.values],
    signals: direction.signals.map((signal) => {
      const day = parts.series.days[signal.position];
      const run = runOf(parts, signal);
      return {
        operation: signal.position + 1,
        day: typeof day === "number" ? dayText(day) : null,
        run_from: signal.from + 1,
        run_eyes: run.eyes.length,
        run_failed: run.failed.length,
        run_expected: run.expected,
      };
    }),
  };
}
