import type { EffectIntervals } from "../../charts/effect-intervals.ts";
import { ratioText } from "../../charts/effect-intervals.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { LogRankTest, TrendTest } from "../../statistics/log-rank.ts";
import type { AnswerTable, FigureRecord, Sentence } from "../answer.ts";
import type { PickBook } from "../answering/answered-eyes.ts";
import { isComparingPeople } from "../answering/cautions.ts";
import {
  effectFigures,
  intervalsName,
  pCell,
  ratioCell,
  ratioInterval,
  ratioRange,
} from "../answering/effect-cells.ts";
import { noEstimate } from "../answering/estimate-cell.ts";
import { rulesClause } from "../answering/failure-words.ts";
import { type Grouping, splitOf } from "../answering/grouping.ts";
import { othersInTable, toldGroups } from "../answering/told-groups.ts";
import { counted, listed, pValue } from "../answering/wording.ts";
import { atCell, atClause, atFigures, type ComparisonAt } from "./comparison-at.ts";
import type { HazardRatios } from "./hazard-ratios.ts";

/** What the sentence, the table and the chart of a comparison are all made from. */
export interface ComparisonParts {
  readonly record: EyeRecord;
  readonly grouping: Grouping;
  readonly strata: Grouping | undefined;
  /** The log-rank test or one of its weighted relatives, and the counts it rests on. */
  readonly test: LogRankTest;
  readonly testName: string;
  readonly trend: TrendTest | undefined;
  readonly at: ComparisonAt | undefined;
  readonly hazards: HazardRatios;
  /** The group that the others are set against. */
  readonly reference: string;
  readonly rows: readonly ComparedGroup[];
}

export interface ComparedGroup {
  readonly label: string;
  readonly eyes: readonly number[];
  readonly failedEyes: readonly number[];
  /** Failures expected if all curves were the same, unweighted. */
  readonly expected: number;
}

export function comparisonSentence(parts: ComparisonParts): Sentence {
  const { grouping, test, rows } = parts;
  if (rows.every(({ eyes }) => eyes.length === 0)) return ["No eyes to compare."];
  if (test.degreesOfFreedom === 0) {
    const why = rows.every(({ failedEyes }) => failedEyes.length === 0)
      ? `no failure is recorded in any group by ${grouping.label}`
      : `only one group by ${grouping.label} has eyes at risk when any failed`;
    return [`There is nothing to compare: ${why}.`];
  }
  return [
    ...testClause(parts),
    ...trendClause(parts),
    ...ratioClause(parts),
    ...(parts.at === undefined ? [] : atClause(parts.at, toldRows(parts))),
    ...rulesClause(parts.record),
  ];
}

/** "Curves of 5 groups by technique (515 eyes): log-rank test, p = 0.40." */
export function comparisonBrief(parts: ComparisonParts): Sentence {
  const { grouping, hazards, reference, rows, strata, test, testName } = parts;
  if (test.degreesOfFreedom === 0) return [];
  const eyes = counted(
    rows.reduce((sum, row) => sum + row.eyes.length, 0),
    "eye",
  );
  const within = strata === undefined ? "" : ` within ${strata.label}`;
  const how = `${strata === undefined ? "" : "stratified "}${testName} test${within}, ${pValue(test.pValue)}`;
  const [only] = hazards.ratios.filter(({ ratio }) => ratio !== null);
  if (rows.length === 2 && only?.ratio) {
    return [
      `Hazard ratio of ${only.label} against ${reference} ${ratioText(only.ratio.estimate)} ` +
        `(95% interval ${ratioRange(only.ratio)}; ${eyes}); ${how}.`,
    ];
  }
  return [`Curves of ${rows.length} groups by ${grouping.label} (${eyes}): ${how}.`];
}

function testClause({ grouping, strata, test, testName, rows }: ComparisonParts): Sentence {
  const within = strata === undefined ? "" : `, within ${strata.label}`;
  const how =
    `${strata === undefined ? "" : "stratified "}${testName} test${within}: chi-square ` +
    `${test.chiSquare.toFixed(2)} on ${counted(test.degreesOfFreedom, "degree")} of freedom, ${pValue(test.pValue)}`;
  const isShort = rows.length <= 5 && !isComparingPeople(grouping.by);
  const which = isShort ? listed(rows.map(({ label }) => label)) : `the ${rows.length} groups`;
  return test.pValue < 0.05
    ? [`The curves of ${which} differ by more than chance alone would readily give (${how}).`]
    : [
        `These eyes do not show that the curves of ${which} differ (${how}); that is not proof that they are the same.`,
      ];
}

function trendClause({ trend, rows, testName }: ComparisonParts): Sentence {
  if (trend === undefined) return [];
  const way = trend.z > 0 ? "more" : "fewer";
  const order = `From ${rows[0]?.label} to ${rows.at(-1)?.label}`;
  if (trend.chiSquare === 0) return [` ${order} there is no trend.`];
  return [
    ` ${order} ${way} failures than expected (${testName} test for trend, ${pValue(trend.pValue)}).`,
  ];
}

function toldRows({ grouping, rows }: ComparisonParts) {
  const told = toldGroups(grouping, rows, ({ eyes }) => eyes.length);
  return rows.map((row) => ({
    label: row.label,
    eyes: row.eyes.length,
    isTold: told.includes(row),
  }));
}

/** Of people, and of groups of a few eyes, no ratio is said: each stands in the table. */
function ratioClause({ hazards, reference, grouping, rows }: ComparisonParts): Sentence {
  const told = toldGroups(grouping, rows, ({ eyes }) => eyes.length);
  const known = hazards.ratios.flatMap(({ label, ratio }) =>
    ratio === null || told.every((row) => row.label !== label) ? [] : [{ label, ratio }],
  );
  const [first] = known;
  if (first === undefined) return [];
  const { method } = first.ratio;
  const isShared = known.every(({ ratio }) => ratio.method === method);
  const texts = known.map(({ label, ratio }) => {
    const limits = isShared ? ratioRange(ratio) : ratioInterval(ratio);
    return `${label} ${ratioText(ratio.estimate)} (${limits})`;
  });
  const how = isShared ? ` (${intervalsName(method, known.length)})` : "";
  return [
    ` Hazard ratio against ${reference}${how}: ${texts.join("; ")}` +
      `${othersInTable(told.length, rows.length)}.`,
  ];
}

/** One row a group, its counts leading to their eyes. */
export function comparisonTable(parts: ComparisonParts, picks: PickBook): AnswerTable {
  const { grouping, hazards, reference, rows, at } = parts;
  return {
    columns: [
      { label: grouping.label ?? "", kind: "text" },
      { label: "eyes", kind: "number" },
      { label: "failed", kind: "number" },
      { label: "expected if equal", kind: "number" },
      { label: "observed / expected", kind: "number" },
      ...(at === undefined
        ? []
        : [{ label: `attached at ${at.text} (95%)`, kind: "estimate" as const }]),
      { label: `${againstWords(reference)} (95%)`, kind: "estimate" },
      { label: "p (Wald)", kind: "number" },
    ],
    rows: rows.map((row, position) => {
      const { label, eyes, failedEyes, expected } = row;
      const ratio = expected > 0 ? failedEyes.length / expected : null;
      const hazard = hazards.ratios[position];
      const isReference = label === reference;
      return [
        { text: label, value: label },
        picks.cell(`g${position}`, `${label}, all eyes`, eyes),
        picks.cell(`g${position}:failed`, `${label}, failed`, failedEyes),
        { text: expected.toFixed(1), value: expected },
        { text: ratio === null ? "–" : ratio.toFixed(2), value: ratio },
        ...(at === undefined ? [] : [atCell(at, position)]),
        isReference ? { text: "reference", value: null } : ratioCell(hazard?.ratio ?? null),
        isReference ? noEstimate : pCell(hazard?.p ?? null),
      ];
    }),
  };
}

/** Without a group that has eyes there is none to set the others against. */
function againstWords(reference: string): string {
  return reference === "" ? "hazard ratio" : `hazard ratio against ${reference}`;
}

/** The hazard ratios as they are drawn. */
export function drawnRatios({
  grouping,
  hazards,
  rows,
  reference,
}: ComparisonParts): EffectIntervals {
  return {
    scale: "ratio",
    ...splitOf(grouping),
    measure: againstWords(reference),
    counted: "failed",
    sides: { below: "slower to fail", above: "sooner to fail" },
    rows: rows.map(({ label, eyes, failedEyes }, position) => {
      const ratio = hazards.ratios[position]?.ratio ?? null;
      return {
        label,
        count: `${failedEyes.length} of ${eyes.length}`,
        estimate: ratio?.estimate ?? null,
        lower: ratio?.lower ?? null,
        upper: ratio?.upper ?? null,
        ...(label === reference ? { note: "reference" } : {}),
        ...(failedEyes.length === 0 ? {} : { pick: `g${position}:failed` }),
      };
    }),
  };
}

export function comparisonFigures(parts: ComparisonParts): FigureRecord {
  const { test, testName, strata, trend, hazards, reference, rows, at } = parts;
  const others = hazards.ratios.filter(({ label }) => label !== reference);
  const only = others.length === 1 ? others[0] : undefined;
  return {
    headline: rows
      .map(({ failedEyes, eyes }) => `${failedEyes.length} of ${eyes.length}`)
      .join(" v "),
    test: testName,
    stratified: strata !== undefined,
    chi_square: test.chiSquare,
    degrees_of_freedom: test.degreesOfFreedom,
    p: test.pValue,
    ...(trend === undefined ? {} : { trend_z: trend.z, trend_p: trend.pValue }),
    ...(at === undefined ? {} : atFigures(at)),
    against: reference,
    ...(only === undefined ? {} : effectFigures("hazard_ratio", only.ratio)),
    proportional_hazards_p: hazards.proportional?.p ?? null,
    groups: rows.map(({ label, eyes, failedEyes, expected }, position) => ({
      group: label,
      eyes: eyes.length,
      observed: failedEyes.length,
      expected,
      ...(at === undefined ? {} : { attached: at.attached[position]?.estimate ?? null }),
      ...effectFigures("hazard_ratio", hazards.ratios[position]?.ratio ?? null),
      hazard_ratio_interval: hazards.ratios[position]?.ratio?.method ?? null,
      hazard_ratio_p: hazards.ratios[position]?.p ?? null,
    })),
  };
}
