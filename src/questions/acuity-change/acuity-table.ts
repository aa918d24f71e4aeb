import { lettersFromLogMar } from "../../cases/acuity.ts";
import { type Quartiles, quartiles } from "../../outcomes/quartiles.ts";
import type { Interval } from "../../statistics/interval.ts";
import type { AnswerCell, AnswerTable, FigureRecord } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { estimateCell, noEstimate } from "../answering/estimate-cell.ts";
import {
  type AcuityGroup,
  type AcuityParts,
  changeText,
  logMarText,
  lowVisionCounts,
  seenLow,
} from "./acuity-parts.ts";

/** Rows: groups, then all eyes. */
export function acuityTable(
  { grouping, table }: AcuityParts,
  rows: readonly AcuityGroup[],
  picks: PickBook,
): AnswerTable {
  const method = rows.at(-1)?.gainedInterval?.method ?? "Wilson";
  const share = `share (95% ${method})`;
  const by = `(table of ${table.name})`;
  return {
    columns: [
      { label: grouping.label ?? "", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: "before and after known", kind: "number" },
      { label: "median before (quartiles), logMAR", kind: "estimate" },
      { label: "median after (quartiles), logMAR", kind: "estimate" },
      { label: "median change (quartiles), logMAR", kind: "estimate" },
      { label: `mean before, logMAR ${by}`, kind: "number" },
      { label: `mean after, logMAR ${by}`, kind: "number" },
      { label: "gained 0.3 or more", kind: "number" },
      { label: share, kind: "estimate" },
      { label: "lost 0.3 or more", kind: "number" },
      { label: share, kind: "estimate" },
    ],
    rows: rows.map((group, position) =>
      groupRow(group, position === rows.length - 1 ? "all" : `g${position}`, picks),
    ),
  };
}

function groupRow(group: AcuityGroup, key: string, picks: PickBook): AnswerCell[] {
  const { label, pairs, gained, lost } = group;
  const openable = (what: string, eyes: readonly number[]): AnswerCell =>
    picks.cell(`${key}:${what}`, `${label}, ${what}`, eyes);
  const eyesOf = (some: AcuityGroup["pairs"]): number[] => some.map(({ eye }) => eye);
  return [
    { text: label, value: label },
    openable("eyes", group.eyes),
    openable("pairs", eyesOf(pairs)),
    quartilesCell(group.before, logMarText),
    quartilesCell(group.after, logMarText),
    quartilesCell(group.change, changeText),
    { text: logMarText(group.meanBefore), value: group.meanBefore },
    { text: logMarText(group.meanAfter), value: group.meanAfter },
    openable("gained", eyesOf(gained)),
    shareCell(gained.length, pairs.length, group.gainedInterval),
    openable("lost", eyesOf(lost)),
    shareCell(lost.length, pairs.length, group.lostInterval),
  ];
}

function quartilesCell(values: Quartiles | null, textOf: (value: number) => string): AnswerCell {
  if (values === null) return noEstimate;
  const { lower, median, upper } = values;
  return {
    text: `${textOf(median)} (${textOf(lower)}\u00a0–\u00a0${textOf(upper)})`,
    value: median,
    limits: { lower, upper },
  };
}

function shareCell(number: number, of: number, interval: Interval | null): AnswerCell {
  return interval === null ? noEstimate : estimateCell(number / of, interval);
}

/** The numbers by name; logMAR. */
export function acuityFigures({ grouping, groups, total, table }: AcuityParts): FigureRecord {
  return {
    ...groupFigures(total),
    headline: `${total.gained.length} of ${total.pairs.length}`,
    low_vision_table: table.name,
    ...readFigures(total),
    ...(grouping.label === undefined
      ? {}
      : { groups: groups.map((group) => ({ group: group.label, ...groupFigures(group) })) }),
  };
}

/** What the sentence reads out besides: letters, the least change counted, days until measured. */
function readFigures({ pairs, before, after, gained, lost }: AcuityGroup): FigureRecord {
  const when = quartiles(pairs.flatMap(({ afterDays }) => afterDays ?? []));
  return {
    before_letters: before === null ? null : lettersFromLogMar(before.median),
    after_letters: after === null ? null : lettersFromLogMar(after.median),
    least_change_letters: 15,
    changed_less: pairs.length - gained.length - lost.length,
    after_days: when?.median ?? null,
    after_days_lower_quartile: when?.lower ?? null,
    after_days_upper_quartile: when?.upper ?? null,
    low_vision: seenLow(pairs).map(({ label, logMar }) => ({ label, logmar: logMar })),
  };
}

function shiftFigures({ signedRank }: AcuityGroup): FigureRecord {
  const limit = (value: number | undefined): number | null =>
    value !== undefined && Number.isFinite(value) ? value : null;
  return {
    shift: signedRank?.shift.estimate ?? null,
    shift_lower: limit(signedRank?.shift.lower),
    shift_upper: limit(signedRank?.shift.upper),
    signed_rank_p: signedRank?.pValue ?? null,
  };
}

function groupFigures(group: AcuityGroup): FigureRecord {
  const { pairs, gained, lost, before, after, change } = group;
  const low = lowVisionCounts(pairs);
  return {
    eyes: group.eyes.length,
    pairs: pairs.length,
    before: before?.median ?? null,
    before_lower_quartile: before?.lower ?? null,
    before_upper_quartile: before?.upper ?? null,
    after: after?.median ?? null,
    after_lower_quartile: after?.lower ?? null,
    after_upper_quartile: after?.upper ?? null,
    change: change?.median ?? null,
    change_lower_quartile: change?.lower ?? null,
    change_upper_quartile: change?.upper ?? null,
    ...shiftFigures(group),
    mean_before: group.meanBefore,
    mean_after: group.meanAfter,
    low_vision_before: low.before,
    low_vision_after: low.after,
    gained: gained.length,
    gained_rate: pairs.length === 0 ? null : gained.length / pairs.length,
    interval: group.gainedInterval?.method ?? null,
    gained_lower: group.gainedInterval?.lower ?? null,
    gained_upper: group.gainedInterval?.upper ?? null,
    lost: lost.length,
    lost_rate: pairs.length === 0 ? null : lost.length / pairs.length,
    lost_lower: group.lostInterval?.lower ?? null,
    lost_upper: group.lostInterval?.upper ?? null,
  };
}
