import type { IncidenceCurve, IncidenceCurves } from "../../charts/incidence-curves.ts";
import { incidenceAt } from "../../statistics/incidence-at.ts";
import { survivalAt } from "../../statistics/survival-at.ts";
import type { AnswerCell, AnswerTable } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { pCell } from "../answering/effect-cells.ts";
import { estimateCell } from "../answering/estimate-cell.ts";
import { splitOf } from "../answering/grouping.ts";
import { daysOf, timeText } from "../answering/time-words.ts";
import { atRiskTimes } from "../attachment-curve/curve-drawing.ts";
import { drawnGroups } from "../attachment-curve/drawn-groups.ts";
import { endedBy, type IncidenceParts } from "./failure-incidence-parts.ts";
import type { GroupIncidence } from "./incidence-of-group.ts";

const blank: AnswerCell = { text: "", value: null };

/** Rows: causes, within each its groups, then eyes with none of them: the columns add up to 1. */
export function incidenceTable(parts: IncidenceParts, picks: PickBook): AnswerTable {
  const { grouping, landmarks, causes, groups, total } = parts;
  const split = grouping.label !== undefined;
  const shown = split ? groups : [total];
  return {
    columns: [
      { label: "how follow-up ended", kind: "text" },
      ...(split ? [{ label: grouping.label ?? "", kind: "text" as const }] : []),
      { label: "eyes", kind: "number" },
      ...landmarks.map(({ text }) => ({ label: `${text} (95%)`, kind: "estimate" as const })),
      ...(split ? [{ label: "p (Gray's test)", kind: "number" as const }] : []),
    ],
    rows: [...causes.labels, "none of these"].flatMap((label, cause) =>
      shown.map((group, position) => [
        { text: label, value: label },
        ...(split ? [{ text: group.label, value: group.label }] : []),
        endedCell(group, cause, { label, key: split ? `g${position}` : "all", picks }),
        ...landmarks.map(({ time }) => estimateAt(group, cause, time)),
        ...(split ? [position === 0 ? testCell(parts, cause) : blank] : []),
      ]),
    ),
  };
}

function testCell({ tests }: IncidenceParts, cause: number): AnswerCell {
  const test = tests?.[cause];
  return test === undefined ? blank : pCell(test.pValue);
}

/** After the last cause come the eyes that none of them ended. */
function endedCell(
  group: GroupIncidence,
  cause: number,
  { label, key, picks }: { label: string; key: string; picks: PickBook },
): AnswerCell {
  const ended = new Set(group.endedAt.flat(2));
  const eyes =
    cause < group.endedAt.length
      ? endedBy(group, cause)
      : group.eyes.filter((eye) => !ended.has(eye));
  return picks.cell(`${key}:${cause}`, `${group.label}, ${label}`, eyes);
}

function estimateAt(group: GroupIncidence, cause: number, time: number): AnswerCell {
  const at =
    cause < group.endedAt.length
      ? incidenceAt(group.curves, cause + 1, time)
      : survivalAt(group.free, time);
  return at === null
    ? { text: "not followed so long", value: null }
    : estimateCell(at.estimate, at);
}

/** One curve a cause, or one a group for the first cause; each step leads to its eyes. */
export function incidenceDrawing(parts: IncidenceParts, picks: PickBook): IncidenceCurves {
  const { record, grouping, groups, total, causes, until } = parts;
  const split = grouping.label !== undefined;
  // Positions stay those of the table, whose picks the curves share.
  const drawn = (split ? drawnGroups(groups) : [total]).map((group) => ({
    group,
    key: split ? `g${groups.indexOf(group)}` : "all",
  }));
  const times = atRiskTimes(record, until);
  const curves = split
    ? drawn.map(({ group, key }) => ({ group, key, cause: 0, label: group.label }))
    : causes.labels.map((label, cause) => ({ group: total, cause, key: "all", label }));
  return {
    curves: curves.map((each) => drawnCurve(parts, each, picks)),
    measure: split ? (causes.labels[0] ?? "failure") : "causes of failure",
    until: daysOf(record, until),
    atRiskTimes: times.map((time) => daysOf(record, time)),
    groups: drawn.map(({ group }) => ({ label: group.label })),
    ...splitOf(grouping),
    atRisk: drawn.map(({ group }) => times.map((time) => remaining(parts, group, time).length)),
    atRiskPicks: drawn.map(({ group, key }) =>
      times.map((time) => {
        const title = `${group.label}, at risk at ${timeText(record, Math.round(time * 10) / 10)}`;
        return picks.add(`${key}@${time}`, title, remaining(parts, group, time)) ?? "";
      }),
    ),
    timeLabel: "months",
  };
}

function remaining({ causes }: IncidenceParts, { eyes }: GroupIncidence, time: number): number[] {
  return eyes.filter((eye) => (causes.time[eye] ?? 0) >= time);
}

function drawnCurve(
  { record }: IncidenceParts,
  each: { group: GroupIncidence; cause: number; key: string; label: string },
  picks: PickBook,
): IncidenceCurve {
  const { group, cause, key, label } = each;
  const { curves } = group;
  const curve = curves.causes[cause];
  const everyone = picks.add(`${key}:${cause}`, `${label}`, endedBy(group, cause));
  return {
    label,
    end: daysOf(record, curves.time.at(-1) ?? 0),
    ...(everyone === undefined ? {} : { pick: everyone }),
    steps: Array.from(curves.time, (time, step) => ({ time, step }))
      .filter(({ step }) => (curve?.events[step] ?? 0) > 0)
      .map(({ time, step }) => {
        const title = `${label}, at ${timeText(record, time)}`;
        const pick = picks.add(
          `${key}:${cause}:${step}`,
          title,
          group.endedAt[cause]?.[step] ?? [],
        );
        return {
          time: daysOf(record, time),
          incidence: curve?.incidence[step] ?? 0,
          lower: limit(curve?.lower[step]),
          upper: limit(curve?.upper[step]),
          ...(pick === undefined ? {} : { pick }),
        };
      }),
  };
}

function limit(value: number | undefined): number | null {
  return value === undefined || Number.isNaN(value) ? null : value;
}
