import type { Problem } from "../../problem/problem.ts";
import { formatDay } from "../calendar-day.ts";
import type { CorrectedRow, Correction, CorrectionsLaid } from "./correction.ts";
import type { CorrectionFate } from "./lay-corrections.ts";

/** One file's fates of all corrections. */
export interface FatesInFile {
  readonly file: string;
  readonly fates: readonly CorrectionFate[];
  /** Lines of which nothing is shown. */
  readonly withheld: ReadonlySet<number>;
}

export interface CorrectionsReport extends CorrectionsLaid {
  readonly problems: readonly Problem[];
}

/**
 * What became of corrections that were laid over one or several files: applied where any file had
 * the value they were made for; else a query, by the first file that has the row.
 */
export function correctionsLaid(
  corrections: readonly Correction[],
  files: readonly FatesInFile[],
): CorrectionsReport {
  const applied: Correction[] = [];
  const notFitting: Correction[] = [];
  const problems: Problem[] = [];
  corrections.forEach((correction, i) => {
    if (files.some(({ fates }) => fates[i]!.kind === "applied")) {
      applied.push(correction);
      return;
    }
    const has = files.find(({ fates }) => fates[i]!.kind !== "row gone") ?? files[0]!;
    notFitting.push(correction);
    problems.push(notApplied(correction, has.fates[i]!, has));
  });
  return { applied, notFitting, problems };
}

function notApplied(correction: Correction, fate: CorrectionFate, at: FatesInFile): Problem {
  const { field, row } = correction;
  const about = { severity: "query", place: { file: at.file, field } } as const;
  switch (fate.kind) {
    case "value differs":
      return fate.found === correction.to
        ? notNeeded(correction, fate.line, at)
        : valueDiffers(correction, fate, at);
    case "row twice":
      return {
        ...about,
        code: "correction-row-twice",
        message: `${fate.rows} rows are called what a correction calls its row by; it is not applied.`,
        found: describeRow(row),
        expected: "one row",
        remedy: "correct the ids first, or make the correction by line",
      };
    case "field unknown":
      return {
        ...about,
        code: "correction-field-unknown",
        message: "a correction is for a column that the file does not have; it is not applied.",
        found: describeRow(row),
        expected: "a column of the file, or a field of the dictionary that is not made from others",
        remedy: "match the column, or take the correction out of the list",
      };
    default:
      return {
        ...about,
        code: "correction-row-gone",
        message: "the row that a correction is for is not in the file; it is not applied.",
        found: describeRow(row),
        expected: "the row as it was when the correction was made",
        remedy: "take the correction out of the list if the row is gone for good",
      };
  }
}

function valueDiffers(
  { field, from }: Correction,
  { line, found }: Extract<CorrectionFate, { kind: "value differs" }>,
  { file, withheld }: FatesInFile,
): Problem {
  return {
    severity: "query",
    code: "correction-value-differs",
    place: { file, line, field },
    message: "a correction was made for another value than the file has here; it is not applied.",
    ...(!withheld.has(line) && { found }),
    expected: from === "" ? "nothing" : from,
    remedy: "make the correction again, or take it out of the list",
  };
}

function notNeeded({ field }: Correction, line: number, { file }: FatesInFile): Problem {
  return {
    severity: "note",
    code: "correction-not-needed",
    place: { file, line, field },
    message: "the file itself now has the value that a correction puts here.",
    remedy: "take the correction out of the list",
  };
}

/** "case 0038", "P001, right, 2024-01-03", "line 12 of cases.csv". */
export function describeRow(row: CorrectedRow): string {
  if (row.by === "case") return `case ${row.case}`;
  if (row.by === "line") return `line ${row.line} of ${row.file}`;
  return `${row.patient}, ${row.eye}, ${formatDay(row.operationDay)}`;
}
