import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { causeNotRecorded, otherCauses } from "../../questions/failure-incidence/cause-of-eye.ts";
import type { SmallCounts } from "./small-counts.ts";
import { type BandOfEyes, merged } from "./time-bands.ts";

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
  small: SmallCounts,
): CausesOfEyes | undefined {
  const failed = bands.flatMap((band) => band.failed);
  const causeOf = new Map(failed.map((eye) => [eye, causeIn(record, eye)]));
  const names = namesOf(causeOf, small);
  if (names.length < 2) return undefined;
  const nameOf = (eye: number) => {
    const cause = causeOf.get(eye) ?? "";
    return names.includes(cause) ? cause : otherCauses;
  };
  const split = (band: BandOfEyes) =>
    names.map((name) => band.failed.filter((eye) => nameOf(eye) === name));
  const isFit = (band: BandOfEyes) => split(band).every(small.isShowable);
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
function namesOf(causeOf: ReadonlyMap<number, string>, { isShowable }: SmallCounts): string[] {
  const eyesOf = new Map<string, number[]>();
  for (const [eye, cause] of causeOf) eyesOf.set(cause, [...(eyesOf.get(cause) ?? []), eye]);
  const named = [...eyesOf]
    .sort(([one, a], [other, b]) => b.length - a.length || (one < other ? -1 : 1))
    .filter(([name, eyes]) => isShowable(eyes) && name !== otherCauses);
  const restOf = () => {
    const told = new Set(named.flatMap(([, eyes]) => eyes));
    return [...causeOf.keys()].filter((eye) => !told.has(eye));
  };
  while (!isShowable(restOf()) && named.length > 0) named.pop();
  const names = named.map(([name]) => name);
  return restOf().length === 0 ? names : [...names, otherCauses];
}
