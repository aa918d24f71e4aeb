import { layChart } from "../charts/chart-request.ts";
import { intervalMark } from "../charts/interval-mark.ts";
import { paperPalette } from "../charts/palette.ts";
import { paperTheme } from "../charts/theme.ts";
import { chartToSvg } from "../charts/to-svg.ts";
import type { Answer, AnswerCell, AnswerTable, Sentence } from "../questions/answer.ts";
import { capitalised, counted } from "../questions/answering/wording.ts";
import { html, Markup } from "./markup.ts";
import { minutes } from "./minutes.ts";
import type { ReportedCell } from "./report-input.ts";

/** Pixels: across a printed page's text, and lower than half a page where the plot can be. */
const chartRoom = { width: 680, tallest: 340 } as const;

/** One answer of the sheet as a section of the report: sentence, chart, table, cautions. */
export async function finding(cell: ReportedCell, answer: Answer): Promise<Markup> {
  const { name } = cell;
  return html`<section class="finding" id="${name}">
<p class="asks">${answer.asks} <span class="name">${name}</span></p>
${answer.sentence.length === 0 ? undefined : html`<p class="sentence">${sentence(answer.sentence)}</p>`}
${await figure(cell, answer)}
${minutes(cell.minuted)}
${table(answer.table)}
${cautions(answer)}
${cell.withheld === undefined ? html`<p class="used">${usedText(answer)}</p>` : withheld(cell.withheld)}
</section>
`;
}

async function figure({ name }: ReportedCell, { chart }: Answer): Promise<Markup | undefined> {
  if (chart === undefined) return undefined;
  const laid = layChart(chart, chartRoom);
  const svg = await chartToSvg(laid, { theme: paperTheme, prefix: name });
  return html`<figure>${new Markup(svg)}</figure>`;
}

function sentence(parts: Sentence): Markup[] {
  return parts.map((part) =>
    typeof part === "string"
      ? html`${part}`
      : html`<strong class="${part.role ?? "plain"}">${part.text}</strong>`,
  );
}

function table({ columns, rows }: AnswerTable): Markup {
  return html`<table>
<thead><tr>${columns.map(({ label, kind }) => html`<th scope="col" class="${kind}">${label}</th>`)}</tr></thead>
<tbody>
${rows.map((row) => html`<tr>${row.map((cell, position) => tableCell(cell, columns[position]?.kind ?? "text", position))}</tr>\n`)}</tbody>
</table>`;
}

function tableCell(cell: AnswerCell, kind: string, position: number): Markup {
  if (position === 0) return html`<th scope="row">${cell.text}</th>`;
  if (cell.mark === undefined) return html`<td class="${kind}">${cell.text}</td>`;
  const { most, ...mark } = cell.mark;
  const look = { width: 130, palette: paperPalette, tone: "failed" as const };
  return html`<td class="${kind}">${new Markup(intervalMark({ ...mark, max: most }, look))}</td>`;
}

function cautions({ cautions: list }: Answer): Markup | undefined {
  if (list.length === 0) return undefined;
  return html`<ul class="cautions">${list.map(({ text }) => html`<li>${text}</li>`)}</ul>`;
}

/** What is kept back of a shared answer. */
export function withheld(lines: readonly string[]): Markup {
  return html`${lines.map((line) => html`<p class="used">${line}</p>`)}`;
}

/** "412 eyes used; left out: 30 eyes (no follow-up)." */
export function usedText({ used: number, unit, leftOut }: Answer): string {
  const inUnit = (each: number): string => counted(each, unit.slice(0, -1), unit);
  const rest = leftOut.filter((each) => each.count > 0);
  const out =
    rest.length === 0
      ? "none left out"
      : `left out: ${rest.map(({ reason, count }) => `${inUnit(count)} (${reason})`).join("; ")}`;
  return `${capitalised(inUnit(number))} used; ${out}.`;
}
