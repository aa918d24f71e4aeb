import type { EffectInterval, EffectIntervals } from "../../charts/effect-intervals.ts";
import type { AnswerCell, AnswerColumn, AnswerTable } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { differenceCell, type Effect, pCell, ratioCell } from "../answering/effect-cells.ts";
import { estimateCell, noEstimate } from "../answering/estimate-cell.ts";
import { splitOf } from "../answering/grouping.ts";
import { pValue } from "../answering/wording.ts";
import type { GroupRate } from "../failure-rate/rate-of-group.ts";
import type { StrataCompared } from "./across-strata.ts";
import type { NamedTest, TwoCompared } from "./compare-two.ts";
import { type DifferenceParts, leadsWithCurve } from "./rate-difference-parts.ts";

/** One row a group, or one row a stratum and one for all strata; every count leads to its eyes. */
export function differenceTable(parts: DifferenceParts, picks: PickBook): AnswerTable {
  return parts.strata === undefined
    ? groupTable(parts, picks)
    : strataTable(parts, parts.strata, picks);
}

function groupTable(parts: DifferenceParts, picks: PickBook): AnswerTable {
  const { grouping, window, reference, compared, groups } = parts;
  const less = reference === undefined ? "" : ` less ${reference.label}`;
  const found = compared.find(({ difference }) => difference !== null)?.difference?.method;
  const method = found === undefined ? "" : ` ${found}`;
  const share = clusteredFirst(groups.flatMap(({ interval }) => interval?.method ?? []));
  const atWindow = window === undefined ? [] : [window.text];
  return {
    columns: [
      { label: grouping.label ?? "", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: "failed", kind: "number" },
      { label: "outcome known", kind: "number" },
      { label: `failed of known (95% ${share})`, kind: "estimate" },
      { label: `failed of known${less}, points (95%${method})`, kind: "estimate" },
      ...atWindow.flatMap((text): AnswerColumn[] => [
        { label: `failed by ${text}, by the curve (95%)`, kind: "estimate" },
        { label: `by the curve${less}, points (95%)`, kind: "estimate" },
      ]),
      ...effectColumns,
    ],
    rows: groups.map((group, position) => {
      const one = compared.find(({ first }) => first === group);
      const curve = [
        estimateCell(group.curve?.estimate ?? null, group.curve),
        differenceOf(one, one?.curve ?? null),
      ];
      return [
        ...countCells(group, `g${position}`, picks),
        estimateCell(group.rate, group.interval),
        differenceOf(one, one?.difference ?? null),
        ...(window === undefined ? [] : curve),
        ...effectCells(one),
      ];
    }),
  };
}

/** The method of the column: by name that of a group with two eyes of a patient. */
function clusteredFirst(methods: readonly string[]): string {
  return methods.find((method) => method.startsWith("patient-clustered")) ?? "Wilson";
}

const effectColumns: readonly AnswerColumn[] = [
  { label: "risk ratio (95%)", kind: "estimate" },
  { label: "odds ratio (95%)", kind: "estimate" },
  { label: "p", kind: "number" },
  { label: "test", kind: "text" },
];

function differenceOf(one: TwoCompared | undefined, effect: Effect | null): AnswerCell {
  return one === undefined ? { text: "reference", value: null } : differenceCell(effect);
}

function effectCells(one: TwoCompared | undefined): AnswerCell[] {
  if (one === undefined) return [noEstimate, noEstimate, noEstimate, noEstimate];
  const midP = one.test?.name === "Fisher's exact test" ? one.exact.midP : undefined;
  return [ratioCell(one.riskRatio), ratioCell(one.oddsRatio), ...testCells(one.test, midP)];
}

function testCells(test: NamedTest | null, midP?: number): AnswerCell[] {
  if (test === null) return [noEstimate, noEstimate];
  const text = midP === undefined ? test.name : `${test.name} (mid-P: ${pValue(midP)})`;
  return [pCell(test.p), { text, value: text }];
}

function countCells(group: GroupRate, key: string, picks: PickBook): AnswerCell[] {
  const openable = (what: string, eyes: readonly number[]): AnswerCell =>
    picks.cell(`${key}:${what}`, `${group.label}, ${what}`, eyes);
  return [
    { text: group.label, value: group.label },
    openable("all", [...group.knownEyes, ...group.unknownEyes]),
    openable("failed", group.failedEyes),
    openable("known", group.knownEyes),
  ];
}

function strataTable(
  { groups }: DifferenceParts,
  strata: StrataCompared,
  picks: PickBook,
): AnswerTable {
  const counted = groups.flatMap(({ label }): AnswerColumn[] => [
    { label: `${label}, failed`, kind: "number" },
    { label: `${label}, known`, kind: "number" },
  ]);
  return {
    columns: [
      { label: strata.label, kind: "text" },
      ...counted,
      { label: "difference, points (95%)", kind: "estimate" },
      ...effectColumns,
    ],
    rows: [
      ...strata.strata.map(({ label, compared }, position) => [
        { text: label, value: label },
        ...pairCells([compared.first, compared.second], { key: `s${position}`, label, picks }),
        differenceCell(compared.difference),
        ...effectCells(compared),
      ]),
      commonRow(strata, groups, picks),
    ],
  };
}

function pairCells(
  groups: readonly GroupRate[],
  { key, label, picks }: { key: string; label: string; picks: PickBook },
): AnswerCell[] {
  return groups.flatMap((group, side) => [
    picks.cell(`${key}:${side}:failed`, `${label}, ${group.label}, failed`, group.failedEyes),
    picks.cell(`${key}:${side}:known`, `${label}, ${group.label}, known`, group.knownEyes),
  ]);
}

function commonRow(
  { difference, riskRatio, oddsRatio, test }: StrataCompared,
  groups: readonly GroupRate[],
  picks: PickBook,
): AnswerCell[] {
  return [
    { text: "across strata", value: "across strata" },
    ...groups.flatMap((group, side) => [
      picks.cell(`g${side}:failed`, `${group.label}, failed`, group.failedEyes),
      picks.cell(`g${side}:known`, `${group.label}, known`, group.knownEyes),
    ]),
    differenceCell(difference),
    ratioCell(riskRatio),
    ratioCell(oddsRatio),
    ...testCells(test),
  ];
}

/** The differences as they are drawn; where eyes are not known, those of the curves. */
export function drawnDifferences(parts: DifferenceParts): EffectIntervals {
  const [first, second] = parts.groups;
  const isTwo = parts.groups.length === 2;
  const byCurve = parts.strata === undefined && leadsWithCurve(parts);
  const what = byCurve ? "difference of the curves" : "difference of failure rates";
  return {
    scale: "difference",
    measure: `${what}, points`,
    counted: "failed",
    ...(isTwo
      ? { sides: { below: `${first?.label} failed less`, above: `${second?.label} failed less` } }
      : {}),
    ...splitOf(parts.strata ?? parts.grouping),
    rows: parts.strata === undefined ? drawnGroups(parts, byCurve) : drawnStrata(parts.strata),
  };
}

function drawnGroups(parts: DifferenceParts, byCurve: boolean): EffectInterval[] {
  return parts.groups.map((group, position): EffectInterval => {
    const one = parts.compared.find(({ first }) => first === group);
    const effect = (byCurve ? one?.curve : one?.difference) ?? null;
    return {
      label: group.label,
      count: `${group.failed} of ${byCurve ? group.eyes + group.notKnown : group.eyes}`,
      estimate: effect?.estimate ?? null,
      lower: effect?.lower ?? null,
      upper: effect?.upper ?? null,
      ...(one === undefined ? { note: "reference" } : {}),
      ...(group.failed === 0 ? {} : { pick: `g${position}:failed` }),
    };
  });
}

function drawnStrata({ strata, difference }: StrataCompared): EffectInterval[] {
  const countOf = ({ failed, eyes }: GroupRate): string => `${failed} of ${eyes}`;
  const rows = strata.map(({ label, compared }, position): EffectInterval => {
    const { first, second } = compared;
    return {
      label,
      count: `${countOf(first)} v ${countOf(second)}`,
      estimate: compared.difference?.estimate ?? null,
      lower: compared.difference?.lower ?? null,
      upper: compared.difference?.upper ?? null,
      ...(first.failed === 0 ? {} : { pick: `s${position}:0:failed` }),
    };
  });
  return [
    ...rows,
    {
      label: "across strata",
      count: "",
      isSummary: true,
      estimate: difference?.estimate ?? null,
      lower: difference?.lower ?? null,
      upper: difference?.upper ?? null,
    },
  ];
}
