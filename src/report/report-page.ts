import { formatDay } from "../cases/calendar-day.ts";
import type { Value } from "../formula/value.ts";
import { formatProblem } from "../problem/format-problem.ts";
import type { Answered } from "../questions/answer.ts";
import { durationText } from "../questions/answering/time-words.ts";
import { counted, figure } from "../questions/answering/wording.ts";
import { actionsSection } from "./actions-due.ts";
import { type ContentsLine, contents, headingAnchor, headingLines } from "./contents.ts";
import { definitionsSection } from "./definitions-used.ts";
import { fieldsSection } from "./fields-section.ts";
import { fileProblems } from "./file-problems.ts";
import { finding, withheld } from "./finding.ts";
import { html, type Markup } from "./markup.ts";
import { methodsSection } from "./methods-section.ts";
import { minutes } from "./minutes.ts";
import { pageFrame } from "./page-frame.ts";
import { headingMarkup, proseMarkup } from "./prose-markup.ts";
import type { ReportBlock, ReportedCell, ReportInput } from "./report-input.ts";
import { standingCaution } from "./standing-caution.ts";

/** The whole report as one HTML file that needs nothing else. */
export async function reportPage(input: ReportInput): Promise<string> {
  const cells = new Map(input.cells.map((cell) => [cell.name, cell]));
  const blocks: Markup[] = [];
  for (const [position, block] of input.blocks.entries()) {
    blocks.push(await reportBlock(block, { cells, position }));
  }
  return pageFrame(
    input.title,
    html`<header>
<h1>${input.title}</h1>
<p class="facts">${facts(input)}</p>
${titleFacts(input)}
<p class="standing">${standingCaution}</p>
</header>
${contents(contentsOf(input))}
<main>
${blocks}</main>
${actionsSection(input.actions)}
${definitionsSection(input.definitions)}
${settings(input.cells)}
${methodsSection(input)}
${fieldsSection(input.cases.fields, input.cases)}
${fileProblems(input.cases.problems)}
${input.sharing === undefined ? provenance(input) : sharedProvenance(input.sharing, input.version)}`,
  );
}

/** The notebook's own parts, then those that every report ends with. */
function contentsOf(input: ReportInput): ContentsLine[] {
  const { actions, definitions, blocks, sharing } = input;
  return [
    ...headingLines(blocks),
    ...(actions.length > 0 ? [{ anchor: "actions", text: "Actions" }] : []),
    ...(definitions.length > 0 ? [{ anchor: "definitions", text: "Definitions used" }] : []),
    ...(methodsSection(input) === undefined ? [] : [{ anchor: "methods", text: "Methods" }]),
    ...(input.cases.fields.length > 0 ? [{ anchor: "fields", text: "What the columns mean" }] : []),
    sharing === undefined
      ? { anchor: "provenance", text: "Where this comes from" }
      : { anchor: "provenance", text: "How this report was made to be shared" },
  ];
}

/** For whom, over which files, and by which version; nothing of the files in a report to share. */
function titleFacts({ reader, cases, aggregates, sharing, version }: ReportInput): Markup {
  const files =
    sharing !== undefined
      ? undefined
      : aggregates === undefined
        ? html`<p class="facts">${cases.file.name}: ${counted(cases.rowsRead, "row")} read, ${cases.rowsKept} kept, ${cases.rowsLeftOut} left out. SHA-256 <code>${cases.sha256}</code></p>`
        : html`<p class="facts">Aggregates of ${counted(aggregates.length, "department")}</p>`;
  return html`${reader === undefined ? undefined : html`<p class="facts">For ${reader}</p>`}${files}
<p class="facts">Holdfast ${version}</p>`;
}

function facts({ department, period, dated }: ReportInput): string {
  return [department, period, dated].filter((each) => each !== undefined).join(" · ");
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

/** An answer, or why there is none; settings and plain values stand in the list at the end. */
async function reportedCell(cell: ReportedCell): Promise<Markup | undefined> {
  const { name, state } = cell;
  if (cell.withheld !== undefined && !isAnswered(cell)) {
    return html`<section class="finding" id="${name}"><p class="asks"><span class="name">${name}</span></p>
${withheld(cell.withheld)}</section>
`;
  }
  if (state.status === "current") {
    const { value } = state;
    if (value.kind === "thing" && value.of === "answer") {
      return finding(cell, (value.content as Answered).answer);
    }
    return plainCell(cell);
  }
  const why =
    state.status === "at fault"
      ? state.problems.map(formatProblem).join("\n")
      : state.status === "waiting"
        ? `waits for ${state.waitsFor.join(", ")}`
        : "is still recalculating";
  return html`<section class="fault" id="${name}"><p><strong>${name}</strong> has no answer:</p>
<pre>${why}</pre></section>
`;
}

/** A setting or a plain value in one line, with what was minuted of it; nothing for other things. */
function plainCell({ name, state, setting, minuted }: ReportedCell): Markup | undefined {
  if (state.status !== "current") return undefined;
  const worth = setting ?? plainText(state.value);
  if (worth === undefined) return undefined;
  return html`<p class="worth"><span class="name">${name.replaceAll("_", " ")}</span> ${worth}</p>
${minutes(minuted)}`;
}

function plainText(value: Value): string | undefined {
  switch (value.kind) {
    case "number":
      return figure(value.number, 3);
    case "text":
      return value.text;
    case "truth":
      return value.truth ? "yes" : "no";
    case "day":
      return formatDay(value.day);
    case "duration":
      return durationText(value);
    default:
      return undefined;
  }
}

function isAnswered({ state }: ReportedCell): boolean {
  return state.status === "current" && state.value.kind === "thing" && state.value.of === "answer";
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

/** Where every number came from: the files by their digests, the workings, the version. */
function provenance({ cases, aggregates, cells, version }: ReportInput): Markup {
  return html`<section class="provenance"><h2 id="provenance">Where this comes from</h2>
<p>${aggregates === undefined ? fromCases(cases) : fromAggregates(aggregates)} Worked out by Holdfast ${version}.</p>
<table class="workings"><tbody>${cells.map(
    ({ name, working }) =>
      html`<tr><th scope="row">${name}</th><td class="text"><code>${working}</code></td></tr>`,
  )}</tbody></table></section>`;
}

function fromCases(cases: ReportInput["cases"]): Markup {
  return html`${cases.file.name}, ${cases.file.encoding}, SHA-256 <code>${cases.sha256}</code>: ${cases.rowsRead} rows read,
${cases.rowsKept} kept, ${cases.rowsLeftOut} left out, ${cases.queries} queries.${laidOver(cases)}`;
}

function fromAggregates(aggregates: NonNullable<ReportInput["aggregates"]>): Markup {
  return html`The aggregates of ${counted(aggregates.length, "department")}, and no case of a patient: ${aggregates.map(
    ({ name, sha256 }, at) => html`${at === 0 ? "" : ", "}${name}, SHA-256 <code>${sha256}</code>`,
  )}.`;
}

/** The files that lie over the cases, and what became of the corrections. */
function laidOver({ laid, corrections }: ReportInput["cases"]): Markup | undefined {
  if (laid.length === 0 && corrections === undefined) return undefined;
  const files = laid.map(
    ({ name, sha256 }, at) => html`${at === 0 ? "" : ", "}${name}, SHA-256 <code>${sha256}</code>`,
  );
  const lying = laid.length === 0 ? undefined : html` Over it lie ${files}.`;
  if (corrections === undefined) return lying;
  const { applied, notFitting } = corrections;
  return html`${lying} ${counted(applied, "correction")} applied, ${notFitting} no longer fitting.`;
}

function sharedProvenance({ threshold }: { readonly threshold: number }, version: string): Markup {
  return html`<section class="provenance"><h2 id="provenance">How this report was made to be shared</h2>
<p>No count from 1 to ${threshold - 1} is shown. Other counts are withheld where small ones could be
worked out from them, over all tables and charts of this report together; so are rates, tests and
curves that rest on what is withheld. Whether a withheld number is small is not said. People are
numbered in an order that tells nothing, days are given as quarters, and groups of fewer than
${threshold} have no name. Sharing two reports on the same cases can give away what neither does.</p>
<p>Worked out by Holdfast ${version}.</p></section>`;
}
