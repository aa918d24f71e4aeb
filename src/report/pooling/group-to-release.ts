import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { outcomeAt } from "../../outcomes/outcome-at.ts";
import { type CausesOfEyes, causesOfBands } from "./causes-of-bands.ts";
import type { EyeGroup } from "./eye-groups.ts";
import { type PairsOfEyes, pairsOf } from "./pairs-of-eyes.ts";
import type { SmallCounts } from "./small-counts.ts";
import {
  type BandOfEyes,
  dayBands,
  fixedBands,
  hasReached,
  isLarge,
  merged,
} from "./time-bands.ts";

/** A group with all that could be said of it: every count as the eyes that it counts. */
export interface GroupToRelease extends EyeGroup {
  /** Unique in the file. */
  readonly key: string;
  readonly failed: readonly number[];
  readonly held: readonly number[];
  readonly unknown: readonly number[];
  /** The fixed bands; never told as they are, but never to be had either. */
  readonly fixed: readonly BandOfEyes[];
  /** The same with deaths among those whose follow-up ended, as they may be told. */
  readonly folded: readonly BandOfEyes[];
  /** What could be told of the times, the finest first. */
  readonly tables: readonly (readonly BandOfEyes[])[];
  /** False where they are too few to be told: then they stand among those whose follow-up ended. */
  readonly areDeathsApart: boolean;
  readonly reached: readonly number[];
  readonly causes: CausesOfEyes | undefined;
  readonly pairs: PairsOfEyes | undefined;
}

export interface ReleaseOptions {
  readonly days: number;
  readonly small: SmallCounts;
}

/** Times, causes and pairs are told of all eyes and of groupings by one column. */
export function groupToRelease(
  record: EyeRecord,
  group: EyeGroup,
  { days, small }: ReleaseOptions,
): GroupToRelease {
  const { by, eyes } = group;
  const outcomes = new Map(eyes.map((eye) => [eye, outcomeAt(record, eye, { time: days })]));
  const having = (outcome: string) => eyes.filter((eye) => outcomes.get(eye) === outcome);
  const isTimed = by.length <= 1;
  const fixed = fixedBands(record, eyes, days);
  const areDeathsApart = small.isShowable(fixed.flatMap(({ died }) => died));
  const tables = isTimed ? timeTables(record, eyes, { days, small, areDeathsApart }) : [];
  const [failed, held] = [having("failed"), having("not failed")];
  return {
    ...group,
    key: JSON.stringify(by.map(({ column, value }) => [column, value])),
    ...{ failed, held, unknown: having("not known") },
    ...{ fixed, tables, areDeathsApart },
    folded: areDeathsApart ? [] : fixed.map(withDeathsAmongEnded),
    reached: eyes.filter((eye) => hasReached(record, eye, days)),
    causes: by.length === 0 ? causesOfBands(record, tables.at(0) ?? [], small) : undefined,
    pairs: by.length === 0 ? pairsOf(record, { failed, held }, small) : undefined,
  };
}

function timeTables(
  record: EyeRecord,
  eyes: readonly number[],
  { days, small, areDeathsApart }: ReleaseOptions & { readonly areDeathsApart: boolean },
): BandOfEyes[][] {
  const isFit = isLarge(small);
  const told = (bands: readonly BandOfEyes[]) =>
    areDeathsApart ? bands : bands.map(withDeathsAmongEnded);
  const byDay = told(dayBands(record, eyes, days));
  const fixed = told(fixedBands(record, eyes, days));
  const whole = merged(fixed, ({ to }) => to === days);
  return [[...byDay], merged(fixed, isFit), whole].filter((table) => table.every(isFit));
}

function withDeathsAmongEnded(band: BandOfEyes): BandOfEyes {
  return { ...band, ended: [...band.ended, ...band.died], died: [] };
}
