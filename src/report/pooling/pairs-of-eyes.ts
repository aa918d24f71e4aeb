import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { SmallCounts } from "./small-counts.ts";

/** The eyes of patients of whom both are known, by how many of the two have failed. */
export interface PairsOfEyes {
  readonly none: readonly number[];
  readonly one: readonly number[];
  readonly both: readonly number[];
}

/** Undefined where a number of patients would be small, or where the file does not name patients. */
export function pairsOf(
  record: EyeRecord,
  { failed, held }: { readonly failed: readonly number[]; readonly held: readonly number[] },
  { isShowable }: SmallCounts,
): PairsOfEyes | undefined {
  const hasFailed = new Set(failed);
  const eyesOf = new Map<string, number[]>();
  for (const eye of [...failed, ...held]) {
    const patient = record.patient[eye] ?? null;
    if (patient === null) return undefined;
    eyesOf.set(patient, [...(eyesOf.get(patient) ?? []), eye]);
  }
  const pairs = [...eyesOf.values()].filter((eyes) => eyes.length === 2);
  const having = (count: number) =>
    pairs.filter((eyes) => eyes.filter((eye) => hasFailed.has(eye)).length === count).flat();
  const found = { none: having(0), one: having(1), both: having(2) };
  const isFit = Object.values(found).every((eyes) => isShowable(eyes));
  return isFit ? found : undefined;
}
