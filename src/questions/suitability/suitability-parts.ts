import { type CellValue, columnNamed } from "../../cases/table.ts";
import {
  recordedFeatures,
  type Suitability,
  type SuitabilityStratum,
  suitabilityOf,
  suitabilityStrata,
} from "../../outcomes/buckle-suitability.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { Group, Grouping } from "../answering/grouping.ts";
import { type GroupRate, rateOfGroup } from "../failure-rate/rate-of-group.ts";

/** What the sentence, the table, the chart and the figures are all made from. */
export interface SuitabilityParts {
  readonly record: EyeRecord;
  readonly grouping: Grouping;
  readonly window: TimeWindow | undefined;
  /** By eye. */
  readonly suitability: readonly Suitability[];
  /** Strata in order, those that no eye is in left out, those not known last. */
  readonly strata: readonly StratumRates[];
  /** Scleral buckles alone, with only features for, and with a feature against; null: no buckle. */
  readonly buckles: { readonly onlyFor: GroupRate; readonly against: GroupRate } | null;
  /** Eyes with only features for that had another operation. */
  readonly otherOnlyFor: GroupRate;
}

export interface StratumRates {
  readonly stratum: SuitabilityStratum | null;
  readonly label: string;
  readonly groups: readonly GroupRate[];
  readonly all: GroupRate;
}

export const notTold = "the record cannot tell";

export function suitabilityParts(
  record: EyeRecord,
  grouping: Grouping,
  options: { readonly window: TimeWindow | undefined; readonly young?: number },
): SuitabilityParts {
  const { window, ...young } = options;
  const suitability = suitabilityByEye(record, young);
  const rateOf = (group: Group): GroupRate =>
    rateOfGroup(record, group, {
      tolerance: 0,
      method: "Wilson",
      ...(window === undefined ? {} : { window }),
    });
  const eyes = suitability.map((_, eye) => eye);
  const technique = columnNamed(record.table, "technique")?.values;
  const having = (label: string, test: (eye: number) => boolean): GroupRate =>
    rateOf({ label, eyes: eyes.filter(test) });
  const isBuckle = (eye: number): boolean => technique?.[eye] === "scleral buckle";
  const isOnlyFor = (eye: number): boolean => suitability[eye]?.stratum === "only features for";
  const isAgainst = (eye: number): boolean => (suitability[eye]?.against.length ?? 0) > 0;
  return {
    record,
    grouping,
    window,
    suitability,
    strata: stratumRates(suitability, grouping, rateOf),
    buckles: eyes.some(isBuckle)
      ? {
          onlyFor: having("buckle, only features for", (eye) => isBuckle(eye) && isOnlyFor(eye)),
          against: having("buckle, a feature against", (eye) => isBuckle(eye) && isAgainst(eye)),
        }
      : null,
    otherOnlyFor: having(
      "another operation, only features for",
      (eye) => isOnlyFor(eye) && !isBuckle(eye) && (technique?.[eye] ?? null) !== null,
    ),
  };
}

function suitabilityByEye(record: EyeRecord, young: { readonly young?: number }): Suitability[] {
  const has = (field: string): boolean => columnNamed(record.table, field) !== undefined;
  const features = recordedFeatures(has);
  return Array.from(record.time, (_, eye) => {
    const read = (field: string): CellValue =>
      columnNamed(record.table, field)?.values[eye] ?? null;
    return suitabilityOf(read, { ...young, features });
  });
}

function stratumRates(
  suitability: readonly Suitability[],
  grouping: Grouping,
  rateOf: (group: Group) => GroupRate,
): StratumRates[] {
  return [...suitabilityStrata, null].flatMap((stratum) => {
    const within = (eye: number): boolean => suitability[eye]?.stratum === stratum;
    const all = suitability.flatMap((each, eye) => (each.stratum === stratum ? [eye] : []));
    if (all.length === 0) return [];
    const groups = grouping.groups
      .map(({ label, eyes }) => ({ label, eyes: eyes.filter(within) }))
      .filter(({ eyes }) => eyes.length > 0)
      .map(rateOf);
    const label = stratum ?? notTold;
    return [{ stratum, label, groups, all: rateOf({ label: "all of these", eyes: all }) }];
  });
}
