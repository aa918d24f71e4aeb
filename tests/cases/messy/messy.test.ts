import { describe, expect, test } from "vitest";
import { dayFromParts } from "../../../src/cases/calendar-day.ts";
import type { CaseReading } from "../../../src/cases/case-reading.ts";
import { readCases } from "../../../src/cases/read-cases.ts";
import { type CellValue, columnNamed } from "../../../src/cases/table.ts";
import { prepareFile } from "../../../src/cases/workbook/prepare-file.ts";
import { cleanTruth, type TrueField, type TrueRow, trueFields } from "./clean-truth.ts";
import { type Mess, messes } from "./mess.ts";
import { type MessyFile, writeMessy } from "./write-messy.ts";

const truth = cleanTruth();
const today = dayFromParts(2026, 1, 1)!;

/** What may be said of a file as a whole, and has to do with nothing that was lost. */
const remarks = new Set([
  "title-lines",
  "encoding-not-utf-8",
  "day-counts",
  "heading-guessed",
  "private-column",
]);

describe("the ways to hand over the same forty operations", () => {
  test("are a hundred and more, each habit alone and in mixtures", () => {
    expect(messes().length).toBeGreaterThanOrEqual(100);
  });

  test.each(messes())("$name", async ({ mess }) => {
    const file = writeMessy(truth, mess);
    const prepared = await prepareFile({ name: "messy", bytes: file.bytes });
    const reading = readCases(prepared, { today });
    expectRows(reading, file, mess);
    expectValues(
      reading,
      file,
      mess.encoding.startsWith("workbook") ? truth.map(onOneLine) : truth,
    );
    expectProblems(reading, file);
  });
});

function expectRows(reading: CaseReading, file: MessyFile, mess: Mess): void {
  const outside = [...(mess.headingsAgain ? [1] : []), ...(mess.below.length > 0 ? [1] : [])];
  expect(reading.lines).toEqual(file.lines);
  expect(reading.leftOut).toHaveLength(outside.length);
}

/** Every value is the truth; what cannot be known is missing, and never anything else. */
function expectValues(reading: CaseReading, file: MessyFile, expected: readonly TrueRow[]): void {
  const unknowable = new Set(file.unknowable.map(({ row, field }) => `${row} ${field}`));
  const wrong = trueFields.flatMap((field) =>
    expected.flatMap((trueRow, row): object[] => {
      const read = columnNamed(reading.cases, field)?.values[row] ?? null;
      if (unknowable.has(`${row} ${field}`)) return read === null ? [] : [{ row, field, read }];
      if (row === file.raggedRow && read === null) return [];
      const isTrue = field === "patient" || isSame(read, trueRow, field);
      return isTrue ? [] : [{ row, field, read, truth: trueRow[field] }];
    }),
  );
  expect(wrong).toEqual([]);
  const patients = columnNamed(reading.cases, "patient")?.values ?? [];
  const known = patients.filter((patient) => patient !== null);
  expect(new Set(known).size).toBe(known.length);
}

function isSame(read: CellValue, row: TrueRow, field: TrueField): boolean {
  const value = row[field];
  // A line of Snellen's chart is a hundredth or less from its logMAR.
  if (field === "acuity_before" && value !== null) {
    return typeof read === "number" && Math.abs(read - Number(value)) < 0.01;
  }
  return JSON.stringify(read) === JSON.stringify(value);
}

/** The lines of one cell of a sheet are read as one line, so that a row of the sheet is a line. */
function onOneLine(row: TrueRow): TrueRow {
  return { ...row, notes: row.notes?.replaceAll("\n", " ") ?? null };
}

/**
 * A query for each value that cannot be known, each row out of step and each column at fault, and
 * no other.
 */
function expectProblems({ problems }: CaseReading, file: MessyFile): void {
  const said = problems.filter(({ code, severity }) => !remarks.has(code) && severity === "query");
  const places = said
    .map(({ place }) => `${place.line ?? "column"} ${place.field ?? "row"}`)
    .sort();
  const cells = file.unknowable.map(({ row, field }) => `${file.lines[row]} ${field}`);
  const rows = file.raggedRow === undefined ? [] : [`${file.lines[file.raggedRow]} row`];
  const columns = file.columnsAtFault.map((heading) => `column ${heading}`);
  expect(places).toEqual([...cells, ...rows, ...columns].sort());
}
