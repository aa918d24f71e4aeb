/** A workbook (.xlsx; ISO/IEC 29500) with all of its sheets read. */
export interface Workbook {
  /** In the order in which the workbook shows them. */
  readonly sheets: readonly Sheet[];
}

export interface Sheet {
  readonly name: string;
  /** From the first row of the sheet on, also those without any value. */
  readonly rows: readonly (readonly SheetValue[])[];
}

/**
 * A text, or a number as the file writes it; yes or no; a day and time of day, as if read in
 * Greenwich; null where a cell is empty, holds an error, or lies under a merged one.
 */
export type SheetValue = string | boolean | Date | null;

export type OpenedWorkbook =
  | { readonly ok: true; readonly workbook: Workbook }
  /** What the reading of its parts stumbled over. */
  | { readonly ok: false; readonly why: string };

/** Opens a workbook. What reads it is loaded only then. Never throws. */
export async function openWorkbook(bytes: Uint8Array): Promise<OpenedWorkbook> {
  const { default: readSheets } = await import("read-excel-file/universal");
  const { buffer } = new Uint8Array(bytes);
  try {
    const read = await readSheets<string>(buffer, { parseNumber: shortestNumber });
    const sheets = read
      .filter(({ data }) => data !== undefined)
      .map(({ sheet, data }) => ({ name: sheet, rows: data as readonly SheetValue[][] }));
    return { ok: true, workbook: { sheets } };
  } catch (error) {
    return { ok: false, why: error instanceof Error ? error.message : String(error) };
  }
}

/**
 * The shortest text of the same double: a file writes 0.3 as 0.29999999999999999. A whole number
 * stays as it is, since one of many digits is an identifier, and no double holds it.
 */
function shortestNumber(written: string): string {
  const number = Number(written);
  return /^-?\d+$/.test(written) || !Number.isFinite(number) ? written : String(number);
}
