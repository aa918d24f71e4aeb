import type { Problem } from "../../problem/problem.ts";
import type { CaseFile, FromWorkbook } from "../open-file.ts";
import { isOpenWorkbook } from "../program-format.ts";
import { openWorkbook, type Workbook } from "./open-workbook.ts";
import { sheetOfCases } from "./sheet-of-cases.ts";
import { textOfRows } from "./text-of-rows.ts";
import { workbookRows } from "./workbook-rows.ts";

/** A file as it was opened. */
export interface FileToPrepare {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Of a workbook, the sheet to be read; absent: the one that most looks like a table of cases. */
  readonly sheet?: string | undefined;
}

/**
 * A file made ready for reading: a workbook (.xlsx) becomes the delimited text of one of its
 * sheets, in which line 12 is row 12 of the sheet; any other file stays as it is. What is to be
 * said of it (no such sheet, which one was taken) comes with the problems of reading it. Never
 * throws.
 */
export async function prepareFile({ name, bytes, sheet }: FileToPrepare): Promise<CaseFile> {
  if (!isOpenWorkbook(bytes)) return { name, bytes };
  const opened = await openWorkbook(bytes);
  if (!opened.ok) {
    const problems = [unread(name, opened.why)];
    return { name, bytes, workbook: { bytes: bytes.length, sheets: [], problems } };
  }
  const { workbook } = opened;
  const sheets = workbook.sheets.map((each) => each.name);
  const from = { bytes: bytes.length, sheets };
  const wanted = sheet ?? sheetOfCases(workbook)?.name ?? sheets[0];
  if (wanted === undefined || !sheets.includes(wanted)) {
    return { name, bytes, workbook: { ...from, problems: [noSuchSheet(name, from, wanted)] } };
  }
  const isTold = sheet !== undefined || filled(workbook).length < 2;
  const problems = isTold ? [] : [sheetChosen(name, wanted, filled(workbook))];
  const text = textOfRows(workbookRows(workbook, wanted)!);
  const textBytes = new TextEncoder().encode(text);
  return { name, bytes: textBytes, workbook: { ...from, sheet: wanted, problems } };
}

function filled({ sheets }: Workbook): readonly string[] {
  return sheets.filter(({ rows }) => rows.length > 0).map(({ name }) => name);
}

function unread(file: string, why: string): Problem {
  return {
    code: "workbook-unread",
    severity: "stop",
    place: { file },
    message: "this workbook could not be read.",
    found: why,
    expected: "a workbook (.xlsx) as spreadsheet programs save it",
    remedy: "open it and save it again, or save the sheet with the cases as CSV in UTF-8",
  };
}

function noSuchSheet(file: string, { sheets }: Pick<FromWorkbook, "sheets">, wanted = ""): Problem {
  return {
    code: "sheet-unknown",
    severity: "stop",
    place: { file },
    message: "this workbook has no such sheet.",
    found: wanted,
    expected: sheets.length === 0 ? "a workbook with a sheet" : sheets.join(", "),
    remedy: "name the sheet with a row for each operation",
  };
}

function sheetChosen(file: string, sheet: string, all: readonly string[]): Problem {
  return {
    code: "sheet-chosen",
    severity: "note",
    place: { file },
    message: `this workbook has ${all.length} sheets with values; "${sheet}" was read.`,
    found: all.join(", "),
    remedy: "name another of them, if the cases are there",
  };
}
