import { existsSync } from "node:fs";
import { join, resolve } from "node:path";
import { counted } from "../questions/answering/wording.ts";
import { type Comparison, comparisonOf } from "../report/comparison/comparison.ts";
import { comparisonJson } from "../report/comparison/comparison-json.ts";
import { comparisonPage } from "../report/comparison/comparison-page.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { type PeriodAsked, periodText } from "./period-asked.ts";
import { type Paper, printPdf } from "./print-pdf.ts";
import { type ToWorkOut, workOut } from "./work-out.ts";
import { writeFiles } from "./write-files.ts";

export interface CompareAsked {
  readonly notebook: string;
  readonly cases: string;
  readonly otherCases: string;
  /** Two periods of one file, the earlier first: the notebook's dates are set to each. */
  readonly periods?: readonly [PeriodAsked, PeriodAsked];
  /** The notebook as it was then, for the first file; absent: the same for both. */
  readonly earlier?: string;
  readonly into: string;
  readonly dated?: string;
  /** Of workbooks; absent: the one with the most known headings. */
  readonly sheet?: string;
  /** For a PDF beside the page: the paper it is laid out for. */
  readonly paper?: Paper;
  readonly quiet: boolean;
}

/** Works a notebook out over two files and writes their answers side by side, with why they differ. */
export async function compareFiles(
  asked: CompareAsked,
  speaker: Surroundings & { readonly version: string },
): Promise<Exit> {
  const [first, second] = toWorkOut(asked);
  const before = await workOut(first, speaker);
  if (before === undefined) return 2;
  const after = await workOut(second, speaker);
  if (after === undefined) {
    before.session.dispose();
    return 2;
  }
  const comparison = comparisonOf(before.session, after.session, {
    version: speaker.version,
    ...(asked.periods && { periods: asked.periods.map(periodText) }),
  });
  before.session.dispose();
  after.session.dispose();
  const refusal = await writeComparison(comparison, asked);
  const { cells } = comparison;
  if (!asked.quiet) speaker.say(summary(comparison, asked));
  const isWhole = cells.every(
    ({ before: one, after: other }) => hasAnswer(one) && hasAnswer(other),
  );
  if (refusal !== undefined) speaker.warn(`${refusal}\n`);
  return isWhole && refusal === undefined ? 0 : 1;
}

function toWorkOut(asked: CompareAsked): readonly [ToWorkOut, ToWorkOut] {
  const { periods, earlier = asked.notebook, otherCases } = asked;
  const [before, after] = periods ?? [];
  return [
    { ...asked, notebook: earlier, ...(before && { period: before }) },
    { ...asked, cases: otherCases, ...(after && { period: after }) },
  ];
}

/** Gives back why there is no PDF, if one was asked for and there is none. */
async function writeComparison(
  comparison: Comparison,
  { into, paper }: CompareAsked,
): Promise<string | undefined> {
  const html = comparisonPage(comparison);
  await writeFiles(into, [
    { name: "comparison.html", content: html },
    { name: "comparison.json", content: comparisonJson(comparison) },
  ]);
  if (paper === undefined) return undefined;
  return printPdf({ html, into: resolve(into, "comparison.pdf"), paper });
}

function summary({ cells, rows, workings }: Comparison, { into, paper }: CompareAsked): string {
  const changed = cells.filter(({ isChanged }) => isChanged).length;
  const names = ["comparison.html", "comparison.json"];
  if (paper !== undefined && existsSync(join(into, "comparison.pdf"))) names.push("comparison.pdf");
  return (
    `${changed} of ${counted(cells.length, "answer")} changed; ` +
    `${counted(rows.corrected.length, "row")} corrected, ${rows.added.length} new, ` +
    `${rows.gone.length} gone\n${workings.length === 0 ? "" : changedWorkings(workings)}written to ${into}: ${names.join(", ")}\n`
  );
}

function changedWorkings(workings: Comparison["workings"]): string {
  const names = workings.map(({ name }) => name).join(", ");
  return `${counted(workings.length, "definition")} changed: ${names}\n`;
}

/** A cell without an answer has neither a number nor a question. */
function hasAnswer({ value, asks }: { readonly value: number | null; readonly asks?: string }) {
  return value !== null || asks !== undefined;
}
