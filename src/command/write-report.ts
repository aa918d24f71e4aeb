import type { NotebookDocument } from "../notebook/notebook-document.ts";
import { usualSmallestCount } from "../notebook/smallest-count.ts";
import { everythingZip, reportFiles } from "../report/files/report-files.ts";
import type { NamedFile } from "../report/files/zip-files.ts";
import type { ReportInput } from "../report/report-input.ts";
import { sharedReport } from "../report/sharing/shared-report.ts";
import { slidesOf } from "../report/slides/slides-of.ts";
import { pngDrawer } from "./draw-png.ts";
import type { Surroundings } from "./exit.ts";
import { writeFiles } from "./write-files.ts";

export interface WrittenReport {
  readonly page: string;
  /** The names of the files. */
  readonly files: readonly string[];
}

/** What is written beside the report, its tables and the results. */
export interface FilesBeside {
  readonly slides?: boolean;
  readonly zip?: boolean;
}

/** Writes the report, a table for each answer, the results, and what is asked for beside them. */
export async function writeReport(
  into: string,
  input: ReportInput,
  beside?: { readonly asked: FilesBeside; readonly speaker: Surroundings },
): Promise<WrittenReport> {
  const files = await reportFiles(input);
  if (beside !== undefined) files.push(...(await filesBeside(input, beside)));
  await writeFiles(into, files);
  const page = files.find(({ name }) => name === "report.html")?.content;
  return { page: String(page), files: files.map(({ name }) => name) };
}

async function filesBeside(
  input: ReportInput,
  { asked, speaker }: { readonly asked: FilesBeside; readonly speaker: Surroundings },
): Promise<NamedFile[]> {
  const { slides = false, zip = false } = asked;
  if (!slides && !zip) return [];
  const draw = await pngDrawer(speaker);
  return [
    ...(slides ? [{ name: "slides.pptx", content: await slidesOf(input, draw) }] : []),
    ...(zip ? [{ name: "everything.zip", content: await everythingZip(input, draw) }] : []),
  ];
}

/** How a report is to be shared. */
export interface SharingAsked {
  /** The smallest count that is shown; absent: what the notebook says. */
  readonly threshold?: number;
}

/** What the reader asks for, or else the notebook, or else the usual one. */
export function thresholdOf({ threshold }: SharingAsked, { front }: NotebookDocument): number {
  return threshold ?? front.smallestCount ?? usualSmallestCount;
}

/** The report as it is written: where it may leave the department, without small counts. */
export function forReaders(input: ReportInput, threshold: number | undefined): ReportInput {
  if (threshold === undefined) return input;
  // The digest is not in the shared report, so that nobody who reads it knows the seed.
  const seed = Number.parseInt(input.cases.sha256.slice(0, 8), 16);
  return sharedReport(input, { threshold, seed });
}
