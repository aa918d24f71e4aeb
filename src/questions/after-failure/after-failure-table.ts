import { type LastState, lastStates } from "../../outcomes/after-failure.ts";
import { eyeCount } from "../../outcomes/eye-record.ts";
import type { AnswerCell, AnswerTable, FigureRecord } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { estimateCell, noEstimate } from "../answering/estimate-cell.ts";
import { shareMethod } from "../answering/share-interval.ts";
import { figure } from "../answering/wording.ts";
import {
  type AfterFailureParts,
  byNextStep,
  type CourseGroup,
  courseGroup,
  type Share,
  settledShare,
  stepLabel,
} from "./after-failure-parts.ts";

/** Rows of the table: what was done next, within each group where the eyes are split. */
interface TableSection {
  readonly label: string;
  readonly groups: readonly CourseGroup[];
}

export function afterFailureTable(parts: AfterFailureParts, picks: PickBook): AnswerTable {
  const { grouping, courses } = parts;
  if (courses.failed.length === 0) return { columns: columnsOf(parts), rows: [] };
  const sections = sectionsOf(parts);
  const rows = sections.flatMap(({ label, groups }, section) =>
    groups.map((group, position) => {
      const key = section === sections.length - 1 ? `n${position}` : `g${section}n${position}`;
      const cells = groupCells(group, { key, of: label, picks });
      return grouping.label === undefined ? cells : [{ text: label, value: label }, ...cells];
    }),
  );
  return { columns: columnsOf(parts), rows };
}

function columnsOf({ record, grouping, courses }: AfterFailureParts): AnswerTable["columns"] {
  const by = grouping.label;
  const method = shareMethod(
    record,
    courses.failed.map(({ eye }) => eye),
  );
  return [
    ...(by === undefined ? [] : [{ label: by, kind: "text" as const }]),
    { label: "done next", kind: "text" },
    { label: "eyes", kind: "number" },
    ...lastStates.map((state) => ({ label: `last: ${state}`, kind: "number" as const })),
    { label: `attached without oil, of decided (95% ${method})`, kind: "estimate" },
    { label: `with or without oil (95% ${method})`, kind: "estimate" },
    { label: "further operations, median (range)", kind: "text" },
  ];
}

/** All eyes last: the chart draws them, under the same keys. */
function sectionsOf({ record, grouping, courses }: AfterFailureParts): TableSection[] {
  const section = (label: string, members: typeof courses.failed): TableSection => ({
    label,
    groups: [...byNextStep(record, members), courseGroup(record, "all first failures", members)],
  });
  const all = section("all eyes", courses.failed);
  if (grouping.label === undefined) return [all];
  const split = grouping.groups.flatMap((group) => {
    const eyes = new Set(group.eyes);
    const members = courses.failed.filter(({ eye }) => eyes.has(eye));
    return members.length === 0 ? [] : [section(group.label, members)];
  });
  return [...split, all];
}

function groupCells(
  group: CourseGroup,
  { key, of, picks }: { readonly key: string; readonly of: string; readonly picks: PickBook },
): AnswerCell[] {
  const title = of === "all eyes" ? group.label : `${of}, ${group.label}`;
  const eyes = group.courses.map(({ eye }) => eye);
  return [
    { text: group.label, value: group.label },
    picks.cell(key, title, eyes),
    ...lastStates.map((state) => stateCell(group, state, { key, title, picks })),
    shareCell(group.withoutOil),
    shareCell(group.withOrWithoutOil),
    operationsCell(group),
  ];
}

function stateCell(
  group: CourseGroup,
  state: LastState,
  { key, title, picks }: { readonly key: string; readonly title: string; readonly picks: PickBook },
): AnswerCell {
  return picks.cell(`${key}:${state}`, `${title}, ${state}`, group.byState.get(state) ?? []);
}

function shareCell(share: Share | null): AnswerCell {
  return share === null ? noEstimate : estimateCell(share.share, share.interval);
}

function operationsCell({ operations }: CourseGroup): AnswerCell {
  if (operations === null) return noEstimate;
  const { median, least, most } = operations;
  return { text: `${figure(median)} (${least} – ${most})`, value: median };
}

/** The numbers by name. */
export function afterFailureFigures({ record, courses }: AfterFailureParts): FigureRecord {
  const all = courseGroup(record, "all first failures", courses.failed);
  const settled = settledShare(record, courses.suspected);
  const attached = all.byState.get("attached")?.length ?? 0;
  return {
    headline: `${attached} of ${courses.failed.length}`,
    failed: courses.failed.length,
    eyes_followed: eyeCount(record),
    ...groupFigures(all),
    steps: byNextStep(record, courses.failed).map((group) => ({
      next: stepLabel(group.courses[0]?.next ?? { kind: "none recorded" }),
      eyes: group.courses.length,
      ...groupFigures(group),
    })),
    suspected: courses.suspected.length,
    suspected_decided: settled?.of ?? 0,
    settled: settled?.count ?? 0,
    settled_share: settled?.share ?? null,
    settled_lower: settled?.interval.lower ?? null,
    settled_upper: settled?.interval.upper ?? null,
  };
}

function groupFigures(group: CourseGroup): FigureRecord {
  const number = (state: LastState): number => group.byState.get(state)?.length ?? 0;
  return {
    attached: number("attached"),
    attached_under_oil: number("attached under oil"),
    under_observation: number("under observation"),
    detached: number("detached"),
    unknown: number("unknown"),
    decided: group.decided,
    interval: group.withoutOil?.interval.method ?? null,
    rate: group.withoutOil?.share ?? null,
    lower: group.withoutOil?.interval.lower ?? null,
    upper: group.withoutOil?.interval.upper ?? null,
    rate_with_oil: group.withOrWithoutOil?.share ?? null,
    lower_with_oil: group.withOrWithoutOil?.interval.lower ?? null,
    upper_with_oil: group.withOrWithoutOil?.interval.upper ?? null,
    operations_median: group.operations?.median ?? null,
    operations_most: group.operations?.most ?? null,
  };
}
