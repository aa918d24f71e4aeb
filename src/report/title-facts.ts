import { counted } from "../questions/answering/wording.ts";
import type { LaidFile, PooledFile, ReportInput } from "./report-input.ts";

/** One line under the title: what it is, what it says, and of a file its SHA-256. */
export interface TitleFact {
  readonly term: string;
  readonly text: string;
  readonly sha256?: string;
}

/**
 * What stands under the title of the report and of the slides: whose it is, of when, who made it for
 * whom, over which files and by which version. Of a report to share, nothing of the files.
 */
export function titleFacts(input: ReportInput): TitleFact[] {
  const { department, period, madeBy, reader, dated, version } = input;
  return [
    ...said("Unit", department),
    ...said("Period", period),
    ...said("Made by", madeBy),
    ...said("For", reader),
    ...said("Date", dated),
    ...filesOf(input),
    { term: "Version", text: `Holdfast ${version}` },
  ];
}

function said(term: string, text: string | undefined): TitleFact[] {
  return text === undefined ? [] : [{ term, text }];
}

function filesOf({ sharing, aggregates, cases }: ReportInput): TitleFact[] {
  if (sharing !== undefined) {
    return [{ term: "Made to be shared", text: `no count under ${sharing.threshold} is shown` }];
  }
  if (aggregates !== undefined) return aggregates.map(departmentFact);
  const { file, sha256, rowsRead, rowsKept, rowsLeftOut, laid } = cases;
  const rows = `${counted(rowsRead, "row")} read, ${rowsKept} kept, ${rowsLeftOut} left out`;
  return [
    { term: "Cases", text: `${file.name}: ${rows}`, sha256 },
    ...laid.map((each) => laidFact(each, cases.corrections)),
  ];
}

function departmentFact({ name, sha256, unit, eyes }: PooledFile): TitleFact {
  const count = eyes === undefined ? "count of eyes withheld" : counted(eyes, "eye");
  return { term: "Aggregates", text: `${name}: ${unit}, ${count}`, sha256 };
}

function laidFact(
  { name, sha256, rowsRead }: LaidFile,
  corrections: ReportInput["cases"]["corrections"],
): TitleFact {
  if (rowsRead !== undefined) {
    return { term: "Further cases", text: `${name}: ${counted(rowsRead, "row")} read`, sha256 };
  }
  const { applied, notFitting } = corrections ?? { applied: 0, notFitting: 0 };
  const became = `${counted(applied, "correction")} applied, ${notFitting} no longer fitting`;
  return { term: "Corrections", text: `${name}: ${became}`, sha256 };
}
