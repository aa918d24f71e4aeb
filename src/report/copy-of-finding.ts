import { type Answer, type AnswerTable, sentenceText } from "../questions/answer.ts";
import { answerOf } from "./answered-cell.ts";
import { chartPicture } from "./files/chart-picture.ts";
import { usedText } from "./finding.ts";
import { html } from "./markup.ts";
import { minuteText } from "./minutes.ts";
import type { ReportedCell } from "./report-input.ts";

/** What of a cell goes to where it is pasted: each program takes the kind that it can hold. */
export interface CopiedFinding {
  /** `text/plain`: sentence, table with tabs, cautions. */
  readonly text: string;
  /** `text/html`: the same with a real table; every text in it is escaped. */
  readonly html: string;
  /** The chart as SVG, to be drawn as `image/png`; undefined without a chart. */
  readonly svg?: string;
}

/** Pixels across the copied chart. */
const width = 760;

/** The finding of a cell for the clipboard, cautions included; undefined without an answer. */
export async function copyOfFinding(cell: ReportedCell): Promise<CopiedFinding | undefined> {
  const answer = answerOf(cell);
  if (answer === undefined) return undefined;
  const picture = await chartPicture(answer, { name: cell.name, width });
  const around = { opening: sentenceText(answer.sentence), closing: closingLines(cell, answer) };
  const table = withoutMarks(answer.table);
  return {
    text: asText(table, around),
    html: asHtml(table, around),
    ...(picture === undefined ? {} : { svg: picture.svg }),
  };
}

interface Around {
  readonly opening: string;
  readonly closing: readonly string[];
}

function closingLines({ minuted, withheld }: ReportedCell, answer: Answer): string[] {
  const used = withheld ?? [usedText(answer)];
  return [...minuted.map(minuteText), ...answer.cautions.map(({ text }) => text), ...used];
}

/** Headings and lines as they are shown, without drawn intervals. */
interface ShownTable {
  readonly headings: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

function withoutMarks({ columns, rows }: AnswerTable): ShownTable {
  const kept = columns.flatMap(({ kind }, at) => (kind === "mark" ? [] : [at]));
  return {
    headings: kept.map((at) => columns[at]?.label ?? ""),
    rows: rows.map((row) => kept.map((at) => row[at]?.text ?? "")),
  };
}

function asText({ headings, rows }: ShownTable, { opening, closing }: Around): string {
  const lines = [headings, ...rows].map((line) => line.map(onOneLine).join("\t"));
  return [opening, lines.join("\n"), closing.join("\n")].filter((part) => part !== "").join("\n\n");
}

/** A tab or a line break in a text would begin another cell where it is pasted. */
function onOneLine(text: string): string {
  return text.replace(/\s+/g, " ");
}

function asHtml({ headings, rows }: ShownTable, { opening, closing }: Around): string {
  return html`<p>${opening}</p>
<table><thead><tr>${headings.map((heading) => html`<th scope="col">${heading}</th>`)}</tr></thead>
<tbody>${rows.map((row) => html`<tr>${row.map((text) => html`<td>${text}</td>`)}</tr>`)}</tbody></table>
${closing.map((text) => html`<p>${text}</p>`)}`.text;
}
