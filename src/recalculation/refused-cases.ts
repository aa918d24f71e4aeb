import type { CaseReading } from "../cases/case-reading.ts";
import type { Correction } from "../cases/corrections/correction.ts";
import type { FurtherFile } from "../cases/joining/read-case-files.ts";
import type { Problem } from "../problem/problem.ts";

/** Why the last of the further files cannot be read; nothing where it was. */
export function unreadOf(
  reading: CaseReading,
  { further, name }: { readonly further: readonly FurtherFile[]; readonly name: string },
): readonly Problem[] {
  if (reading.joins?.length === further.length) return [];
  const ofFile = reading.problems.filter(({ place }) => place.file?.startsWith(name));
  const stops = ofFile.filter(({ severity }) => severity === "stop");
  return stops.length > 0 ? stops : ofFile;
}

/** Why some of the given corrections do not fit; nothing where all were applied. */
export function misfitsOf(
  { corrections, problems }: CaseReading,
  given: readonly Correction[],
): readonly Problem[] {
  const misfits = (corrections?.notFitting ?? []).filter((misfit) => given.includes(misfit));
  const fields = new Set(misfits.map(({ field }) => field));
  return problems
    .filter(({ code, place }) => code.startsWith("correction-") && fields.has(place.field ?? ""))
    .map((problem) => ({ ...problem, severity: "stop" }));
}
