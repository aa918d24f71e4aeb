import { eyeCount } from "../../outcomes/eye-record.ts";
import type { AnswerCell, AnswerColumn, AnswerTable, FigureRecord } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { estimateCell, noEstimate } from "../answering/estimate-cell.ts";
import { rateHeading } from "../answering/rate-words.ts";
import { rateFigures } from "../failure-rate/failure-rate-parts.ts";
import { headlineOf } from "../failure-rate/rate-of-group.ts";
import { type ClockGroup, type ClockParts, type ClockRow, ofSide } from "./clock-parts.ts";

/**
 * Quadrants, inferior or not, then the hours; an eye counts in every row where it has a break.
 * Split, the same rows for each group, then for all eyes.
 */
export function clockTable(parts: ClockParts, picks: PickBook): AnswerTable {
  const { record, grouping, groups, total } = parts;
  const split = groups.length > 0;
  return {
    columns: [
      ...(split ? [{ label: grouping.label ?? "", kind: "text" as const }] : []),
      ...columnsOf(rateHeading(record)),
    ],
    rows: [...groups, total].flatMap((group) =>
      rowsOf(group).map(([key, row]) => [
        ...(split ? [{ text: group.label, value: group.label }] : []),
        ...tableRow(key, row, { picks, of: split ? `${group.label}, ` : "" }),
      ]),
    ),
  };
}

function columnsOf(rate: string): AnswerColumn[] {
  return [
    { label: "break at", kind: "text" },
    { label: "eyes", kind: "number" },
    { label: "right eyes", kind: "number" },
    { label: "left eyes", kind: "number" },
    { label: "failed", kind: "number" },
    { label: "failed, right", kind: "number" },
    { label: "failed, left", kind: "number" },
    { label: rate, kind: "estimate" },
    { label: "not known", kind: "number" },
  ];
}

function rowsOf(group: ClockGroup): readonly (readonly [key: string, row: ClockRow])[] {
  const { key, byQuadrant, withInferior, withoutInferior, byHour } = group;
  return [
    ...byQuadrant.map((row, position) => [`${key}q${position}`, row] as const),
    [`${key}inferior`, withInferior],
    [`${key}elsewhere`, withoutInferior],
    ...byHour.map((row) => [`${key}h${row.hour}`, row] as const),
  ];
}

function tableRow(
  key: string,
  row: ClockRow,
  { picks, of }: { readonly picks: PickBook; readonly of: string },
): AnswerCell[] {
  const openable = (what: string, eyes: readonly number[]): AnswerCell =>
    picks.cell(`${key}:${what}`, `${of}${row.label}, ${what}`, eyes);
  const [right, left] = [ofSide(row, "right"), ofSide(row, "left")];
  const headline = headlineOf(row.rate);
  return [
    { text: row.label, value: row.label },
    openable(
      "all",
      row.eyes.map(({ eye }) => eye),
    ),
    openable("right", right.eyes),
    openable("left", left.eyes),
    openable("failed", row.rate.failedEyes),
    openable("right failed", right.failed),
    openable("left failed", left.failed),
    headline === null ? noEstimate : estimateCell(headline.estimate, headline),
    openable("not known", row.rate.unknownEyes),
  ];
}

/** The numbers by name. */
export function clockFigures({ record, inferior, total, groups }: ClockParts): FigureRecord {
  return {
    headline: `${total.withInferior.eyes.length} of ${total.eyes.length}`,
    eyes: eyeCount(record),
    inferior_hours: inferior.name,
    ...groupFigures(total),
    ...(groups.length === 0
      ? {}
      : { groups: groups.map((each) => ({ group: each.label, ...groupFigures(each) })) }),
  };
}

function groupFigures(group: ClockGroup): FigureRecord {
  const { eyes, byQuadrant, withInferior, withoutInferior, byHour } = group;
  return {
    placed: eyes.length,
    right: eyes.filter(({ side }) => side === "right").length,
    left: eyes.filter(({ side }) => side === "left").length,
    inferior: rowFigures(withInferior),
    inferior_share: eyes.length === 0 ? null : withInferior.eyes.length / eyes.length,
    elsewhere: rowFigures(withoutInferior),
    quadrants: byQuadrant.map((row) => ({
      quadrant: row.quadrant,
      share: eyes.length === 0 ? null : row.eyes.length / eyes.length,
      ...rowFigures(row),
    })),
    hours: byHour.map((row) => ({
      hour: row.hour,
      right: ofSide(row, "right").eyes.length,
      left: ofSide(row, "left").eyes.length,
      ...rowFigures(row),
    })),
  };
}

function rowFigures(row: ClockRow): FigureRecord {
  return { ...rateFigures(row.rate), eyes: row.eyes.length };
}
