import { type Answer, type Sentence, sentenceText } from "../../questions/answer.ts";
import { answerOf } from "../answered-cell.ts";
import { chartPicture, type DrawPng } from "../files/chart-picture.ts";
import { usedText } from "../finding.ts";
import { methodsUsed } from "../methods.ts";
import { minuteText } from "../minutes.ts";
import type { ReportedCell } from "../report-input.ts";
import type { Slide, SlidePicture, SlideTable, TextRun } from "./slide.ts";

/** Pixels across a chart that stands alone, and of one beside its table. */
const chartWidths = { alone: 900, besideTable: 620 } as const;
const rowsOnASlide = 13;
/** A table of at most this size stands beside its chart. */
const narrow = { columns: 4, rows: 10 } as const;
const titleLetters = 190;

/** The slides of one answer: one, or more where its table needs room of its own. */
export async function findingSlides(
  cell: ReportedCell,
  draw: DrawPng,
): Promise<{ readonly isFlow: boolean; readonly slides: readonly Slide[] }> {
  const answer = answerOf(cell);
  if (answer === undefined) return { isFlow: false, slides: [] };
  const [first, ...rest] = tablePages(answer);
  const hasChart = answer.chart !== undefined;
  const isBeside = hasChart && rest.length === 0 && first !== undefined && isNarrow(first);
  const picture = await pictureOf({ cell, answer, draw, isBeside });
  const title = titleOf(answer);
  const common = { title, foot: footOf(cell, answer), notes: notesOf(cell, answer) };
  const opening: Slide = {
    ...common,
    ...(picture === undefined ? {} : { picture }),
    ...(first !== undefined && (isBeside || !hasChart) ? { table: first } : {}),
  };
  const further = (hasChart && !isBeside && first !== undefined ? [first, ...rest] : rest).map(
    (table): Slide => ({ ...common, title: [{ text: `${answer.asks} The numbers` }], table }),
  );
  return { isFlow: answer.chart?.draw === "flow", slides: [opening, ...further] };
}

async function pictureOf(asked: {
  readonly cell: ReportedCell;
  readonly answer: Answer;
  readonly draw: DrawPng;
  readonly isBeside: boolean;
}): Promise<SlidePicture | undefined> {
  const width = asked.isBeside ? chartWidths.besideTable : chartWidths.alone;
  const picture = await chartPicture(asked.answer, { name: asked.cell.name, width });
  return picture === undefined ? undefined : { ...picture, png: await asked.draw(picture.svg, 2) };
}

/** The table without its drawn intervals, whose numbers stand in other columns, page by page. */
function tablePages({ table: { columns, rows } }: Answer): SlideTable[] {
  const kept = columns.flatMap(({ kind }, at) => (kind === "mark" ? [] : [at]));
  const headings = kept.flatMap((at) => columns[at] ?? []);
  const texts = rows.map((row) => kept.map((at) => row[at]?.text ?? ""));
  const heads = headings.map(({ label, kind }) => ({ label, isText: kind === "text" }));
  const pages = Math.ceil(texts.length / rowsOnASlide);
  return Array.from({ length: pages }, (_, page) => ({
    columns: heads,
    rows: texts.slice(page * rowsOnASlide, (page + 1) * rowsOnASlide),
  }));
}

function isNarrow({ columns, rows }: SlideTable): boolean {
  return columns.length <= narrow.columns && rows.length <= narrow.rows;
}

/** The first sentence, or the question where that is too long for a slide. */
function titleOf({ sentence, asks }: Answer): TextRun[] {
  const runs = firstSentence(sentence);
  const length = runs.reduce((sum, { text }) => sum + text.length, 0);
  return length === 0 || length > titleLetters ? [{ text: asks }] : runs;
}

function firstSentence(sentence: Sentence): TextRun[] {
  const runs: TextRun[] = [];
  for (const part of sentence) {
    const { text, role } = typeof part === "string" ? { text: part } : { role: undefined, ...part };
    const end = /[.](?=\s+\p{Lu}|\s*$)/u.exec(text);
    const shown = end === null ? text : text.slice(0, end.index + 1);
    runs.push({ text: shown, ...(role === undefined ? {} : { role }) });
    if (end !== null) break;
  }
  return runs;
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
