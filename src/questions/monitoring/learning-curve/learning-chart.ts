import type { Monitoring, MonitoringLine, MonitoringPanel } from "../../../charts/monitoring.ts";
import { dayText } from "../../../formula/calendar.ts";
import type { PickBook } from "../../answering/answered-eyes.ts";
import { percent } from "../../answering/wording.ts";
import { placesOf } from "../series-words.ts";
import type { LearningParts } from "./learning-parts.ts";
import type { OneWay } from "./three-way.ts";

/** Above, the rates in order; below, the two sums of evidence with their limits. */
export function drawnLearning(parts: LearningParts, picks: PickBook): Monitoring {
  return {
    places: placesOf(parts),
    across: parts.isByDay ? "operations in order, by month" : "operations in order",
    panels: [ratesPanel(parts), evidencePanel(parts, picks)],
  };
}

function ratesPanel({ design, failed }: LearningParts): MonitoringPanel {
  const level = (value: number) => ({ value, label: percent(value) });
  return {
    title: `failure rate so far; dashed: of the last ${design.moving}`,
    kind: "share",
    lines: [
      { points: cumulativeRates(failed).slice(firstDrawn - 1) },
      { points: movingRates(failed, design.moving), isDashed: true },
    ],
    dots: [],
    references: [level(design.acceptable), level(design.unacceptable)],
    signals: [],
    breaks: [],
  };
}

function evidencePanel(parts: LearningParts, picks: PickBook): MonitoringPanel {
  const { found, eyes, failed, person } = parts;
  const failures = eyes.flatMap((eye, i) => {
    if (!failed[i]) return [];
    const pick = picks.add(`eye${i}`, `${person.code}, operation ${i + 1}`, [eye]);
    const dot = { at: i + 1, value: found.up.values[i] ?? 0, tone: "failed" as const };
    return [pick === undefined ? dot : { ...dot, pick }];
  });
  return {
    title: "evidence that the level is reached (up) or not (down)",
    kind: "number",
    lines: [...evidence(found.up, 1), ...evidence(found.down, -1)],
    dots: failures,
    references: [
      { value: found.up.limit, label: "reached" },
      { value: -found.down.limit, label: "not" },
    ],
    signals: [...decisions(parts, found.up, 1), ...decisions(parts, found.down, -1)],
    breaks: [],
  };
}

/** The rate of fewer operations than this swings between none and all, and is not drawn. */
const firstDrawn = 10;

function cumulativeRates(failed: readonly boolean[]) {
  let count = 0;
  return failed.map((each, i) => {
    count += each ? 1 : 0;
    return { at: i + 1, value: count / (i + 1) };
  });
}

/** From the first operation at which so many have been done. */
export function movingRates(failed: readonly boolean[], width: number) {
  return failed.flatMap((_, i) => {
    if (i + 1 < width) return [];
    const part = failed.slice(i + 1 - width, i + 1);
    return [{ at: i + 1, value: part.filter(Boolean).length / width }];
  });
}

function evidence({ values, signals }: OneWay, side: 1 | -1): MonitoringLine[] {
  const starts = [0, ...signals.map((at) => at + 1)].filter((at) => at < values.length);
  return starts.map((start, i) => ({
    points: [
      { at: start, value: 0 },
      ...Array.from(values.slice(start, starts[i + 1] ?? values.length), (value, k) => ({
        at: start + k + 1,
        value: value === 0 ? 0 : side * value,
      })),
    ],
  }));
}

function decisions({ days }: LearningParts, { values, signals }: OneWay, side: 1 | -1) {
  return signals.map((at) => {
    const day = days[at];
    const label = typeof day === "number" ? dayText(day) : `operation ${at + 1}`;
    return { at: at + 1, value: side * (values[at] ?? 0), label };
  });
}
