import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { outcomeAt } from "../../outcomes/outcome-at.ts";
import type { FailureDefinition, OutcomeRules } from "../../outcomes/outcome-rules.ts";
import {
  type CountedEveryWay,
  oilChoices,
  type WayOfCounting,
  waysOfCounting,
} from "../../outcomes/ways-of-counting.ts";
import type { Group, Grouping } from "../answering/grouping.ts";
import { type GroupRate, headlineOf, rateOfGroup } from "../failure-rate/rate-of-group.ts";

/** One group of eyes under one way of counting. */
export interface WayRate {
  readonly way: WayOfCounting;
  readonly rate: GroupRate;
}

/** A row of the picture: a rate, and how far it moves with what the row leaves open. */
export interface DefinitionRow {
  readonly label: string;
  readonly rate: GroupRate;
  readonly lowest: number | null;
  readonly highest: number | null;
  /** The way of counting that the sheet has chosen. */
  readonly chosen: boolean;
  /** Under which the row is counted. */
  readonly record: EyeRecord;
}

export interface DefinitionSection {
  readonly label: string;
  readonly rows: readonly DefinitionRow[];
}

/** Every rate of one answer: the whole, and the sections it is shown in. */
export interface RatesEveryWay {
  readonly chosen: GroupRate;
  /** All eyes, under each of the ways. */
  readonly all: readonly WayRate[];
  /** Without a split a section is a definition; with one it is a group. */
  readonly sections: readonly DefinitionSection[];
  /** Eyes that fail under every way, under none, and under some. */
  readonly always: readonly number[];
  readonly never: readonly number[];
  readonly sometimes: readonly number[];
}

export function ratesEveryWay(
  counted: CountedEveryWay,
  grouping: Grouping,
  rules: OutcomeRules,
): RatesEveryWay {
  const everyone = { label: "all eyes", eyes: Array.from(counted.chosen.time, (_, eye) => eye) };
  const split = grouping.label !== undefined;
  const sections = split
    ? [...grouping.groups, everyone].map((group) => groupSection(group, counted, rules))
    : definitionSections(everyone, counted, rules);
  return {
    chosen: rateUnder(counted.chosen, everyone),
    all: waysOfCounting.map((way) => ({ way, rate: rateUnder(counted.under(way), everyone) })),
    sections,
    ...byAgreement(counted, rules),
  };
}

/** Within the record's own window: a state read at the last visit has none. */
function rateUnder(record: EyeRecord, group: Group): GroupRate {
  const { window } = record;
  const options = { tolerance: 0, method: "Wilson" as const };
  return rateOfGroup(record, group, window === undefined ? options : { ...options, window });
}

const definitionsInOrder: readonly FailureDefinition[] = [
  ...new Set(waysOfCounting.map((way) => way.failure)),
];

/** A section a definition, a row a treatment of oil; the undecided are left open. */
function definitionSections(
  group: Group,
  counted: CountedEveryWay,
  rules: OutcomeRules,
): DefinitionSection[] {
  return definitionsInOrder.map((failure) => ({
    label: failure,
    rows: oilChoices(failure).map((oil) => {
      const record = counted.under({ failure, oil, undecided: rules.undecided });
      const open = waysOfCounting.filter((way) => way.failure === failure && way.oil === oil);
      return {
        label: oil === null ? "oil in at the last visit has failed" : `oil ${oil}`,
        rate: rateUnder(record, group),
        ...rangeOver(open, { group, counted }),
        chosen: failure === rules.failure && (oil === null || oil === rules.oil),
        record,
      };
    }),
  }));
}

/** A section a group, a row a definition; oil and the undecided are left open. */
function groupSection(
  group: Group,
  counted: CountedEveryWay,
  rules: OutcomeRules,
): DefinitionSection {
  const rows = definitionsInOrder.map((failure) => {
    const record = counted.under({ failure, oil: rules.oil, undecided: rules.undecided });
    const open = waysOfCounting.filter((way) => way.failure === failure);
    return {
      label: failure,
      rate: rateUnder(record, group),
      ...rangeOver(open, { group, counted }),
      chosen: failure === rules.failure,
      record,
    };
  });
  return { label: group.label, rows };
}

/** None where the rate cannot be estimated under one of the ways. */
function rangeOver(
  ways: readonly WayOfCounting[],
  { group, counted }: { readonly group: Group; readonly counted: CountedEveryWay },
): { readonly lowest: number | null; readonly highest: number | null } {
  const rates = ways.map((way) => {
    return headlineOf(rateUnder(counted.under(way), group))?.estimate ?? null;
  });
  const known = rates.filter((rate) => rate !== null);
  if (known.length < rates.length) return { lowest: null, highest: null };
  return { lowest: Math.min(...known), highest: Math.max(...known) };
}

function byAgreement(
  counted: CountedEveryWay,
  { window }: OutcomeRules,
): Pick<RatesEveryWay, "always" | "never" | "sometimes"> {
  const records = waysOfCounting.map((way) => counted.under(way));
  const at = window === undefined ? {} : { time: window.length };
  const failing = Array.from(
    counted.chosen.time,
    (_, eye) => records.filter((record) => outcomeAt(record, eye, at) === "failed").length,
  );
  const having = (test: (ways: number) => boolean): number[] =>
    failing.flatMap((ways, eye) => (test(ways) ? [eye] : []));
  return {
    always: having((ways) => ways === records.length),
    never: having((ways) => ways === 0),
    sometimes: having((ways) => ways > 0 && ways < records.length),
  };
}
