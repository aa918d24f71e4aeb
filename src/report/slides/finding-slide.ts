import { type Answer, type Sentence, sentenceText } from "../../questions/answer.ts";
import { answerOf } from "../answered-cell.ts";
import type { DrawPng } from "../files/chart-picture.ts";
import { usedText } from "../finding.ts";
import { methodsUsed } from "../methods.ts";
import { minuteText } from "../minutes.ts";
import type { ReportedCell } from "../report-input.ts";
import type { Slide, SlideTable, TextRun } from "./slide.ts";
import { slideChart } from "./slide-chart.ts";
import { places } from "./slide-room.ts";
import { isHeadline } from "./title-fit.ts";

/** What a slide says of one answer; undefined for a cell without one. */
export function findingSlide(
  cell: ReportedCell,
  draw: DrawPng,
): { readonly isFlow: boolean; readonly slide: Slide } | undefined {
  const answer = answerOf(cell);
  if (answer === undefined) return undefined;
  const chart = slideChart({ name: cell.name, answer }, draw);
  const slide: Slide = {
    ...headingOf(cell, answer),
    ...(chart === undefined ? {} : { chart }),
    table: tableOf(answer),
    foot: footOf(cell, answer),
    notes: notesOf(cell, answer),
  };
  return { isFlow: answer.chart?.draw === "flow", slide };
}

/**
 * The headline under its question and the name of its cell, which tells apart two answers to one
 * question; the question itself where no sentence is short enough.
 */
function headingOf(
  { name }: ReportedCell,
  { brief, sentence, asks }: Answer,
): Required<Pick<Slide, "asks" | "title">> {
  const said = name.replaceAll("_", " ");
  const headlines = [(brief ?? []).map(runOf), firstSentence(sentence)];
  const title = headlines.find((runs) => runs.length > 0 && isHeadline(runs, places.title));
  if (title === undefined) return { asks: said, title: [{ text: asks }] };
  return { asks: `${asks} (${said})`, title };
}

function firstSentence(sentence: Sentence): TextRun[] {
  const runs: TextRun[] = [];
  for (const run of sentence.map(runOf)) {
    const end = /[.](?=\s+\p{Lu}|\s*$)/u.exec(run.text);
    runs.push(end === null ? run : { ...run, text: run.text.slice(0, end.index + 1) });
    if (end !== null) break;
  }
  return runs;
}

function runOf(part: Sentence[number]): TextRun {
  if (typeof part === "string") return { text: part };
  const { text, role } = part;
  return role === undefined ? { text } : { text, role };
}

/** The table without its drawn intervals, whose numbers stand in other columns. */
function tableOf({ table: { columns, rows } }: Answer): SlideTable {
  const kept = columns.flatMap((column, at) => (column.kind === "mark" ? [] : [{ column, at }]));
  return {
    columns: kept.map(({ column: { label, kind } }) => ({ label, isText: kind === "text" })),
    rows: rows.map((row) =>
      kept.map(({ column, at }) => {
        const text = row[at]?.text ?? "";
        return column.kind === "text" ? text : keptTogether(text);
      }),
    ),
  };
}

/** "13.3% (9.3 - 18.9)" may be broken before its interval, and nowhere else. */
function keptTogether(numbers: string): string {
  return numbers.replace(/ (?!\()/g, "\u00a0");
}

function footOf({ minuted, withheld = [] }: ReportedCell, { cautions }: Answer): string[] {
  return [...minuted.map(minuteText), ...withheld, ...cautions.map(({ text }) => text)];
}

/** The whole sentence, what it rests on, and the methods in plain words. */
function notesOf(cell: ReportedCell, answer: Answer): string {
  const { name, withheld } = cell;
  return [
    `${answer.asks} (${name})`,
    sentenceText(answer.sentence),
    ...(withheld === undefined ? [usedText(answer)] : []),
    ...footOf(cell, answer),
    ...methodsUsed([answer]).map((method) => `${method.name}: ${method.does} ${method.source}`),
  ].join("\n");
}
