import type { CaseReading } from "./case-reading.ts";
import { openCases } from "./open-cases.ts";
import type { CaseFile } from "./open-file.ts";
import { readOpenedFiles } from "./read-opened-files.ts";
import type { ReadCasesOptions } from "./reading-options.ts";

/**
 * Reads a file of cases: bytes to text, rows, matched columns, checked cases. Never throws,
 * whatever the bytes: what cannot be read is a problem, and a file of which nothing can be read
 * gives no cases and a problem of severity `stop`. Every row is in `cases` or in `leftOut`.
 */
export function readCases(file: CaseFile, options: ReadCasesOptions = {}): CaseReading {
  return readOpenedFiles(openCases(file, options.matching), [], options);
}
