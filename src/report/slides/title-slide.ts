import { counted } from "../../questions/answering/wording.ts";
import type { ReportInput } from "../report-input.ts";
import { standingCaution } from "../standing-caution.ts";
import type { Slide } from "./slide.ts";

/** What it is, whose, of when and over which cases; with the cautions of every report. */
export function titleSlide(input: ReportInput): Slide {
  const { title, department, period, dated, version } = input;
  const lines = [department, period, dated, rowsOf(input)].filter((line) => line !== undefined);
  return {
    title: [{ text: title }],
    body: lines.map((text) => ({ text, endsLine: true })),
    foot: [standingCaution],
    notes: [...lines, standingCaution, `Worked out by Holdfast ${version}.`].join("\n"),
  };
}

/** Nothing of the cases in a report to share. */
function rowsOf({ cases, aggregates, sharing }: ReportInput): string | undefined {
  if (aggregates !== undefined) return `Aggregates of ${counted(aggregates.length, "department")}`;
  if (sharing !== undefined)
    return `Made to be shared: no count under ${sharing.threshold} is shown`;
  const { file, rowsRead, rowsKept, rowsLeftOut } = cases;
  return `${file.name}: ${counted(rowsRead, "row")} read, ${rowsKept} kept, ${rowsLeftOut} left out`;
}
