import { isOpenWorkbook } from "../program-format.ts";
import { openWorkbook } from "./open-workbook.ts";
import { sheetOfCases } from "./sheet-of-cases.ts";

/** A sheet that the cases may be in. */
export interface SheetFound {
  readonly name: string;
  /** Rows from the first to the last one with a value. */
  readonly rows: number;
  /** It is the one that most looks like a table of cases. */
  readonly looksLikeCases: boolean;
}

/** The sheets of a workbook (.xlsx) that hold something; none where it is none. Never throws. */
export async function sheetsIn(bytes: Uint8Array): Promise<readonly SheetFound[]> {
  if (!isOpenWorkbook(bytes)) return [];
  const opened = await openWorkbook(bytes);
  if (!opened.ok) return [];
  const likeliest = sheetOfCases(opened.workbook);
  return opened.workbook.sheets
    .filter(({ rows }) => rows.length > 0)
    .map((sheet) => ({
      name: sheet.name,
      rows: sheet.rows.length,
      looksLikeCases: sheet === likeliest,
    }));
}
