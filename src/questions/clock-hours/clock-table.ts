import { eyeCount } from "../../outcomes/eye-record.ts";
import type { AnswerCell, AnswerTable, FigureRecord } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { estimateCell, noEstimate } from "../answering/estimate-cell.ts";
import { rateHeading } from "../answering/rate-words.ts";
import { rateFigures } from "../failure-rate/failure-rate-parts.ts";
import { headlineOf } from "../failure-rate/rate-of-group.ts";
import { type ClockParts, type ClockRow, ofSide } from "./clock-parts.ts";

/** Quadrants, inferior or not, then the hours; an eye counts in every row where it has a break. */
export function clockTable(parts: ClockParts, picks: PickBook): AnswerTable {
  const { byQuadrant, withInferior, withoutInferior, byHour, record } = parts;
  const rows: readonly (readonly [key: string, row: ClockRow])[] = [
    ...byQuadrant.map((row, position) => [`q${position}`, row] as const),
    ["inferior", withInferior],
    ["elsewhere", withoutInferior],
    ...byHour.map((row) => [`h${row.hour}`, row] as const),
  ];
  return {
    columns: [
      { label: "break at", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: "right eyes", kind: "number" },
      { label: "left eyes", kind: "number" },
      { label: "failed", kind: "number" },
      { label: "failed, right", kind: "number" },
      { label: "failed, left", kind: "number" },
      { label: rateHeading(record), kind: "estimate" },
      { label: "not known", kind: "number" },
    ],
    rows: rows.map(([key, row]) => tableRow(key, row, picks)),
  };
}

function tableRow(key: string, row: ClockRow, picks: PickBook): AnswerCell[] {
  const openable = (what: string, eyes: readonly number[]): AnswerCell =>
    picks.cell(`${key}:${what}`, `${row.label}, ${what}`, eyes);
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
export function clockFigures(parts: ClockParts): FigureRecord {
  const { breaks, inferior, byQuadrant, withInferior, withoutInferior, byHour } = parts;
  const figures = (row: ClockRow): FigureRecord => ({
    ...rateFigures(row.rate),
    eyes: row.eyes.length,
  });
  return {
    headline: `${withInferior.eyes.length} of ${breaks.eyes.length}`,
    eyes: eyeCount(parts.record),
    placed: breaks.eyes.length,
    right: breaks.eyes.filter(({ side }) => side === "right").length,
    left: breaks.eyes.filter(({ side }) => side === "left").length,
    inferior_hours: inferior.name,
    inferior: figures(withInferior),
    elsewhere: figures(withoutInferior),
    quadrants: byQuadrant.map((row) => ({
      quadrant: row.quadrant,
      share: breaks.eyes.length === 0 ? null : row.eyes.length / breaks.eyes.length,
      ...figures(row),
    })),
    hours: byHour.map((row) => ({
      hour: row.hour,
      right: ofSide(row, "right").eyes.length,
      left: ofSide(row, "left").eyes.length,
      ...figures(row),
    })),
  };
}
