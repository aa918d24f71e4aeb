import { actionsSection } from "./actions-due.ts";
import { againstMinutes, againstMinutesHeading, againstMinutesSection } from "./against-minutes.ts";
import { type ContentsLine, headingAnchor, headingLines } from "./contents.ts";
import { definitionsSection } from "./definitions-used.ts";
import { fieldsSection } from "./fields-section.ts";
import { fileProblems } from "./file-problems.ts";
import { html, type Markup } from "./markup.ts";
import { methodsSection } from "./methods-section.ts";
import { pageFrame } from "./page-frame.ts";
import { headingMarkup, proseMarkup } from "./prose-markup.ts";
import { provenance, provenanceHeading } from "./provenance.ts";
import type { ReportBlock, ReportedCell, ReportInput } from "./report-input.ts";
import { reportedCell } from "./reported-cell.ts";
import { titlePage } from "./title-page.ts";

/** The whole report as one HTML file that needs nothing else. */
export async function reportPage(input: ReportInput): Promise<string> {
  const cells = new Map(input.cells.map((cell) => [cell.name, cell]));
  const blocks: Markup[] = [];
  for (const [position, block] of input.blocks.entries()) {
    blocks.push(await reportBlock(block, { cells, position }));
  }
  return pageFrame(
    input.title,
    html`${titlePage(input, contentsOf(input))}
<main>
${blocks}</main>
${againstMinutesSection(againstMinutes(input))}
${actionsSection(input.actions)}
${definitionsSection(input.definitions)}
${settings(input.cells)}
${methodsSection(input)}
${fieldsSection(input.cases.fields, input.cases)}
${fileProblems(input.cases.problems)}
${provenance(input)}`,
  );
}

/** The notebook's own parts, then those that every report ends with. */
function contentsOf(input: ReportInput): ContentsLine[] {
  const { actions, definitions, blocks, cases } = input;
  return [
    ...headingLines(blocks),
    ...(againstMinutes(input).length > 0
      ? [{ anchor: "against", text: againstMinutesHeading }]
      : []),
    ...(actions.length > 0 ? [{ anchor: "actions", text: "Actions" }] : []),
    ...(definitions.length > 0 ? [{ anchor: "definitions", text: "Definitions used" }] : []),
    ...(methodsSection(input) === undefined ? [] : [{ anchor: "methods", text: "Methods" }]),
    ...(cases.fields.length > 0 ? [{ anchor: "fields", text: "What the columns mean" }] : []),
    { anchor: "provenance", text: provenanceHeading(input) },
  ];
}

async function reportBlock(
  block: ReportBlock,
  {
    cells,
    position,
  }: { readonly cells: ReadonlyMap<string, ReportedCell>; readonly position: number },
): Promise<Markup> {
  if (block.type === "heading")
    return headingMarkup(block.level, block.text, headingAnchor(position));
  if (block.type === "prose") return html`${proseMarkup(block.text)}`;
  if (block.type === "code") return html`<pre class="written">${block.text}</pre>\n`;
  const findings: Markup[] = [];
  for (const name of block.cells) {
    const cell = cells.get(name);
    const drawn = cell === undefined ? undefined : await reportedCell(cell);
    if (drawn !== undefined) findings.push(drawn);
  }
  return html`${findings}`;
}

function settings(cells: readonly ReportedCell[]): Markup | undefined {
  const chosen = cells.filter((cell) => cell.setting !== undefined);
  if (chosen.length === 0) return undefined;
  return html`<section class="definitions"><h2>Settings used</h2>
<table><tbody>${chosen.map(
    ({ name, setting }) =>
      html`<tr><th scope="row">${name}</th><td class="text">${setting}</td></tr>`,
  )}</tbody></table></section>`;
}
