import { counted, figure, percent, percentRange } from "../../questions/answering/wording.ts";
import { html, type Markup } from "../markup.ts";
import { pageFrame } from "../page-frame.ts";
import { standingCaution } from "../standing-caution.ts";
import type { CellHeadline } from "./cell-headline.ts";
import type { CellCompared } from "./compare-cells.ts";
import type { RowsCompared } from "./compare-rows.ts";
import type { Comparison } from "./comparison.ts";

/** The comparison as one HTML file that needs nothing else; it holds ids of cases. */
export function comparisonPage(comparison: Comparison): string {
  const { title, before, after, rows, cells, version } = comparison;
  return pageFrame(
    `${title}: ${before.name} and ${after.name}`,
    html`<header>
<h1>${title}</h1>
<p class="facts">${before.name} beside ${after.name}</p>
<p class="standing">${standingCaution}</p>
<p class="standing">Two figures side by side are no test of a difference; read their intervals in the
two reports. This page names cases: it is for the department alone.</p>
</header>
<main>
<h2>What the answers say</h2>
${cellsTable(comparison, cells)}
${workingsSection(comparison)}
<h2>What became of the rows</h2>
${rowsSummary(comparison)}
${correctedTable(rows)}
</main>
<p class="used">Worked out by Holdfast ${version}.</p>`,
  );
}

/** What of the notebook is not as it was. */
function workingsSection({ workings, isReadAlike, before, after }: Comparison): Markup {
  const reading = isReadAlike
    ? undefined
    : html`<p>The notebooks read their files differently: headings, codes or columns worked out are
not understood alike.</p>`;
  if (workings.length === 0) {
    return html`<p class="used">No definition changed between the two: every cell is worked out
alike.</p>${reading}`;
  }
  return html`<h2>What is worked out otherwise</h2>
<p>Where a definition changed, two figures answer two questions.</p>${reading}
<table><thead><tr><th scope="col" class="text">cell</th><th scope="col" class="text">over ${before.name}</th>
<th scope="col" class="text">over ${after.name}</th></tr></thead>
<tbody>${workings.map(
    (working) => html`<tr><th scope="row"><code>${working.name}</code></th>
<td class="text">${workingText(working.before)}</td><td class="text">${workingText(working.after)}</td></tr>\n`,
  )}</tbody></table>`;
}

function workingText(working: string | undefined): Markup {
  return working === undefined ? html`not there` : html`<code>${working}</code>`;
}

function cellsTable({ before, after }: Comparison, cells: readonly CellCompared[]): Markup {
  return html`<table><thead><tr><th scope="col" class="text">answer</th><th scope="col">${before.name}</th>
<th scope="col">${after.name}</th><th scope="col">change</th><th scope="col" class="text">why</th></tr></thead>
<tbody>${cells.map(
    (
      cell,
    ) => html`<tr><th scope="row">${cell.before.asks ?? cell.after.asks ?? ""} <code>${cell.name}</code></th>
<td>${headline(cell.before)}</td><td>${headline(cell.after)}</td><td>${change(cell)}</td>
<td class="text">${cell.why.length === 0 ? "the same rows, unchanged" : cell.why.join("; ")}</td></tr>\n`,
  )}</tbody></table>`;
}

/** "28 of 259; by the curve 11.5% (95% 8.1 to 16.2%)": a rate is no quotient of the counts there. */
function headline({ text, value, isRate, interval, answered }: CellHeadline): string {
  if (!isRate || value === null) return text;
  const isAttached = answered?.answer.question === "attachment_curve";
  const what = isAttached ? " attached" : "";
  const counts = isAttached ? `${text} failed` : text;
  if (interval === undefined) return `${counts}, ${percent(value)}${what}`;
  const how = interval.byCurve ? "by the curve " : "";
  return `${counts}; ${how}${percent(value)}${what} (95% ${percentRange(interval)})`;
}

/** "+1.2 points" of rates, "+3" of numbers; words where only words changed. */
function change({ before, after, isChanged }: CellCompared): string {
  if (!isChanged) return "none";
  if (before.value === null || after.value === null) return "changed";
  const difference = after.value - before.value;
  if (difference === 0) return "counts only";
  const sign = difference > 0 ? "+" : "−";
  const size = Math.abs(difference);
  return before.isRate ? `${sign}${(100 * size).toFixed(1)} points` : `${sign}${figure(size, 2)}`;
}

function rowsSummary({ before, after, rows }: Comparison): Markup {
  const read = html`<p>${before.name}: ${counted(before.rowsRead, "row")} read, ${before.rowsLeftOut} left out.
${after.name}: ${counted(after.rowsRead, "row")} read, ${after.rowsLeftOut} left out.</p>`;
  if (!rows.hasIds) {
    return html`${read}<p>A file has no ids of cases, so that single rows cannot be compared.</p>`;
  }
  return html`${read}<p>By the id of the case: ${rows.alike} alike, ${rows.corrected.length} corrected,
${rows.added.length} new, ${rows.gone.length} gone.</p>
${list("New", rows.added)}${list("Gone", rows.gone)}
${list("Twice in a file, and not compared", rows.ambiguous)}
${list("Columns that only the second file has", rows.columnsAdded)}
${list("Columns that only the first file has", rows.columnsGone)}`;
}

function list(what: string, names: readonly string[]): Markup | undefined {
  return names.length === 0 ? undefined : html`<p>${what}: ${names.join(", ")}.</p>`;
}

function correctedTable({ corrected }: RowsCompared): Markup | undefined {
  if (corrected.length === 0) return undefined;
  return html`<h3>Corrected</h3><table><thead><tr><th scope="col" class="text">case</th>
<th scope="col" class="text">what</th><th scope="col" class="text">was</th><th scope="col" class="text">is</th></tr></thead>
<tbody>${corrected.map(({ id, fields }) =>
    fields.map(
      ({ field, from, to }) => html`<tr><th scope="row">${id}</th><td class="text">${field}</td>
<td class="text">${from}</td><td class="text">${to}</td></tr>\n`,
    ),
  )}</tbody></table>`;
}
