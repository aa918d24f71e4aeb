import { answerOf } from "../answered-cell.ts";
import { problemsCsv } from "../file-problems.ts";
import type { ReportedCell, ReportInput } from "../report-input.ts";
import { reportPage } from "../report-page.ts";
import { resultsJson } from "../results-json.ts";
import { sharedResultsJson } from "../sharing/shared-results.ts";
import { slidesOf } from "../slides/slides-of.ts";
import { tableCsv } from "../table-csv.ts";
import { chartPicture, type DrawPng } from "./chart-picture.ts";
import { type NamedFile, zipFiles } from "./zip-files.ts";

/** Pixels across a chart that is saved by itself. */
const pictureWidth = 760;

/** The report, a table of each answer, the results, and what was wrong with the file of cases. */
export async function reportFiles(input: ReportInput): Promise<NamedFile[]> {
  const isShared = input.sharing !== undefined;
  return [
    { name: "report.html", content: await reportPage(input) },
    ...input.cells.flatMap(tableFile),
    { name: "results.json", content: isShared ? sharedResultsJson(input) : resultsJson(input) },
    ...(isShared ? [] : [{ name: "problems.csv", content: problemsCsv(input.cases.problems) }]),
  ];
}

/**
 * One zip of everything: what `reportFiles` gives, the slides, and each chart as SVG and as PNG at
 * twice its size. Of a shared report it holds no more than that report shows.
 */
export async function everythingZip(input: ReportInput, draw: DrawPng): Promise<Uint8Array> {
  const files = await reportFiles(input);
  for (const cell of input.cells) files.push(...(await pictureFiles(cell, draw)));
  files.push({ name: "slides.pptx", content: await slidesOf(input, draw) });
  return zipFiles(files);
}

/** A chart as SVG, and as PNG at twice its size where one can be drawn; none without a chart. */
export async function pictureFiles(cell: ReportedCell, draw: DrawPng): Promise<NamedFile[]> {
  const answer = answerOf(cell);
  const { name } = cell;
  const picture =
    answer === undefined ? undefined : await chartPicture(answer, { name, width: pictureWidth });
  if (picture === undefined) return [];
  const png = await draw(picture.svg, 2);
  return [
    { name: `${name}.svg`, content: picture.svg },
    ...(png === undefined ? [] : [{ name: `${name}.png`, content: png }]),
  ];
}

/** A name of a cell is letters, digits and underscores, so it is a name for a file as well. */
function tableFile(cell: ReportedCell): NamedFile[] {
  const answer = answerOf(cell);
  return answer === undefined
    ? []
    : [{ name: `${cell.name}.csv`, content: tableCsv(answer.table) }];
}
