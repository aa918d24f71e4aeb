import { isMissing } from "../missing-value.ts";
import { isReadable, openCases } from "../open-cases.ts";
import type { CaseFile } from "../open-file.ts";
import type { ReadCasesOptions } from "../reading-options.ts";
import { patientsWritten } from "./patient-codes.ts";
import { patientIdentity } from "./patient-identity.ts";

/**
 * The different patients in a file, each by its identity (spaces and case left aside), by the
 * matching that it is to be read with. For making their codes before reading; never to be shown or kept.
 */
export function patientsIn(
  file: CaseFile,
  { matching }: Pick<ReadCasesOptions, "matching"> = {},
): ReadonlySet<string> {
  const opened = openCases(file, matching);
  if (!isReadable(opened)) return new Set();
  const written = new Set(
    patientsWritten(opened).different.filter((patient) => !isMissing(patient)),
  );
  return new Set([...written].map(patientIdentity));
}
