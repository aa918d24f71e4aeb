import { counted } from "../questions/answering/wording.ts";
import { html, type Markup } from "./markup.ts";
import type { NamedDigest, ReportInput } from "./report-input.ts";

/** Where every number came from: the files by their digests, the workings, the version. */
export function provenance(input: ReportInput): Markup {
  const { cases, aggregates, cells, sharing, version } = input;
  if (sharing !== undefined) return sharedProvenance(sharing, version);
  return html`<section class="provenance"><h2 id="provenance">${provenanceHeading(input)}</h2>
<p>${aggregates === undefined ? fromCases(cases) : fromAggregates(aggregates)} Worked out by Holdfast ${version}.</p>
<table class="workings"><tbody>${cells.map(
    ({ name, working }) =>
      html`<tr><th scope="row">${name}</th><td class="text"><code>${working}</code></td></tr>`,
  )}</tbody></table></section>`;
}

export function provenanceHeading({ sharing }: ReportInput): string {
  return sharing === undefined ? "Where this comes from" : "How this report was made to be shared";
}

function fromCases(cases: ReportInput["cases"]): Markup {
  return html`${cases.file.name}, ${cases.file.encoding}, SHA-256 <code>${cases.sha256}</code>: ${cases.rowsRead} rows read,
${cases.rowsKept} kept, ${cases.rowsLeftOut} left out, ${cases.queries} queries.${laidOver(cases)}`;
}

function fromAggregates(aggregates: readonly NamedDigest[]): Markup {
  return html`The aggregates of ${counted(aggregates.length, "department")}, and no case of a patient: ${digests(aggregates)}.`;
}

function digests(files: readonly NamedDigest[]): Markup {
  return html`${files.map(
    ({ name, sha256 }, at) => html`${at === 0 ? "" : ", "}${name}, SHA-256 <code>${sha256}</code>`,
  )}`;
}

/** The files that lie over the cases, and what became of the corrections. */
function laidOver({ laid, corrections }: ReportInput["cases"]): Markup | undefined {
  if (laid.length === 0 && corrections === undefined) return undefined;
  const lying = laid.length === 0 ? undefined : html` Over it lie ${digests(laid)}.`;
  if (corrections === undefined) return lying;
  const { applied, notFitting } = corrections;
  return html`${lying} ${counted(applied, "correction")} applied, ${notFitting} no longer fitting.`;
}

function sharedProvenance({ threshold }: { readonly threshold: number }, version: string): Markup {
  return html`<section class="provenance"><h2 id="provenance">How this report was made to be shared</h2>
<p>No count from 1 to ${threshold - 1} is shown, in eyes or in the patients they belong to: eyes of
fewer than ${threshold} patients are withheld however many they are. Other counts are withheld where small ones could be
worked out from them, over all tables and charts of this report together; so are rates, tests and
curves that rest on what is withheld. Whether a withheld number is small is not said. People are
numbered in an order that tells nothing, days are given as quarters, and groups of fewer than
${threshold} eyes or patients have no name. Sharing two reports on the same cases can give away what neither does.</p>
<p>Worked out by Holdfast ${version}.</p></section>`;
}
