import { isMissing } from "../missing-value.ts";
import { isReadable, openCases } from "../open-cases.ts";
import type { CaseFile } from "../open-file.ts";
import type { ReadCasesOptions } from "../reading-options.ts";
import { patientsWritten } from "./patient-codes.ts";

/**
 * The different identifiers of patients in a file, as written, by the matching that it is to be
 * read with. For making their codes before reading; never to be shown or kept.
 */
export function patientsIn(
  file: CaseFile,
  { matching }: Pick<ReadCasesOptions, "matching"> = {},
): ReadonlySet<string> {
  const opened = openCases(file, matching);
  if (!isReadable(opened)) return new Set();
  return new Set(patientsWritten(opened).filter((patient) => !isMissing(patient)));
}
