import { isReadable, openCases } from "../open-cases.ts";
import type { CaseFile } from "../open-file.ts";
import { patientCodes, patientsWritten } from "../pseudonyms/patient-codes.ts";
import { codedPeople } from "../pseudonyms/people-codes.ts";
import type { ReadCasesOptions } from "../reading-options.ts";
import type { CorrectedRow } from "./correction.ts";
import { RowFinder } from "./find-row.ts";
import { type LaidCorrections, layCorrections } from "./lay-corrections.ts";

/** A row as text, for making a correction to it. */
export interface WrittenRow {
  /** What to call the row by in a correction. */
  readonly row: CorrectedRow;
  /**
   * By name of the column in the cases: the text as it stands with the corrections so far, which
   * is `from` of the next one. Of the patient, the code. A field that is not in the file has none:
   * its `from` is empty.
   */
  readonly values: ReadonlyMap<string, string>;
}

/** The file that rows are wanted from. */
export interface RowsWanted {
  readonly file: CaseFile;
  /** Files that are read before this one: where patients have no key, their codes count on. */
  readonly before?: readonly CaseFile[];
}

/** Where a row is wanted from. */
export interface RowWanted extends RowsWanted {
  /** The line it begins on, counted from 1. */
  readonly line: number;
}

/**
 * The row of a file that begins on a line, by the options that the file is read with; undefined
 * where no case begins there. What is private in it is left out.
 */
export function writtenRow(
  { line, ...wanted }: RowWanted,
  options: ReadCasesOptions = {},
): WrittenRow | undefined {
  return writtenRows(wanted, options)(line);
}

/** As `writtenRow`, for many rows of one file: the row that begins on a line. */
export function writtenRows(
  { file, before = [] }: RowsWanted,
  options: ReadCasesOptions = {},
): (line: number) => WrittenRow | undefined {
  const opened = openCases(file, options.matching);
  if (!isReadable(opened)) return () => undefined;
  const earlier = before.map((one) => openCases(one, options.matching)).filter(isReadable);
  const { files } = codedPeople([...earlier, opened]);
  const { codes } = patientCodes(files.map(patientsWritten), options.pseudonym);
  const { name, delimiter } = opened.facts;
  const { table, plans } = files.at(-1)!.matched;
  const corrected = { name, delimiter, table, plans, codes };
  const laid = layCorrections(corrected, options.corrections ?? []);
  const finder = new RowFinder(corrected);
  const rows = new Map(table.lines.map((line, row) => [line, row]));
  return (line) => {
    const row = rows.get(line);
    return row === undefined
      ? undefined
      : { row: finder.callRow(row), values: valuesAt(laid, row) };
  };
}

function valuesAt({ table, plans, patients }: LaidCorrections, row: number) {
  const values = new Map<string, string>();
  for (const { spec, position, isField } of plans) {
    if (spec === undefined) continue;
    const isPatient = isField && spec.name === "patient";
    values.set(spec.name, (isPatient ? patients?.[row] : table.columns[position]!.at(row)) ?? "");
  }
  return values;
}
