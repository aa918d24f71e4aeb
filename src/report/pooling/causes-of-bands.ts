import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { causeNotRecorded, otherCauses } from "../../questions/failure-incidence/cause-of-eye.ts";
import { type BandOfEyes, isShowable, merged } from "./time-bands.ts";

export interface CausesOfEyes {
  readonly names: readonly string[];
  readonly bands: readonly {
    readonly from: number;
    readonly to: number;
    /** Eyes failed, one list for each name. */
    readonly failed: readonly (readonly number[])[];
  }[];
}

/**
 * Why they failed, in bands that the time table's are parts of. Causes under the threshold stand
 * together as others; where that is still too few, the least frequent of the named joins them.
 * Undefined where nothing is left to tell.
 */
export function causesOfBands(
  record: EyeRecord,
  bands: readonly BandOfEyes[],
  threshold: number,
): CausesOfEyes | undefined {
  const failed = bands.flatMap((band) => band.failed);
  const causeOf = new Map(failed.map((eye) => [eye, causeIn(record, eye)]));
  const names = namesOf([...causeOf.values()], threshold);
  if (names.length < 2) return undefined;
  const nameOf = (eye: number) => {
    const cause = causeOf.get(eye) ?? "";
    return names.includes(cause) ? cause : otherCauses;
  };
  const split = (band: BandOfEyes) =>
    names.map((name) => band.failed.filter((eye) => nameOf(eye) === name));
  const isFit = (band: BandOfEyes) => split(band).every((of) => isShowable(of.length, threshold));
  const table = merged(bands, isFit);
  if (!table.every(isFit)) return undefined;
  return {
    names,
    bands: table.map((band) => ({ from: band.from, to: band.to, failed: split(band) })),
  };
}

function causeIn(record: EyeRecord, eye: number): string {
  const causes = record.causes[eye] ?? [];
  return causes.length === 0 ? causeNotRecorded : [...new Set(causes)].sort().join(" and ");
}

/** The causes told apart, the most frequent first, others last. */
function namesOf(causes: readonly string[], threshold: number): string[] {
  const counts = new Map<string, number>();
  for (const cause of causes) counts.set(cause, (counts.get(cause) ?? 0) + 1);
  const ranked = [...counts].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
  const named = ranked.filter(([name, count]) => count >= threshold && name !== otherCauses);
  const restOf = () => causes.length - named.reduce((sum, [, count]) => sum + count, 0);
  while (!isShowable(restOf(), threshold) && named.length > 0) named.pop();
  const names = named.map(([name]) => name);
  return restOf() === 0 ? names : [...names, otherCauses];
}
