import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import { chiSquareTest } from "../../statistics/chi-square-test.ts";
import { type ClusteredGroup, clusteredComparison } from "../../statistics/clustered-comparison.ts";
import { type ExactTest, fisherExact } from "../../statistics/fisher-exact.ts";
import type { SurvivalCurve } from "../../statistics/kaplan-meier.ts";
import {
  scoreDifference,
  scoreOddsRatio,
  scoreRatio,
} from "../../statistics/miettinen-nurminen.ts";
import {
  type ComparisonEstimate,
  newcombeDifference,
} from "../../statistics/newcombe-difference.ts";
import { oddsRatio, type RatioEstimate, riskRatio } from "../../statistics/ratio-estimates.ts";
import { survivalDifferenceAt } from "../../statistics/survival-difference.ts";
import type { TwoByTwo } from "../../statistics/two-by-two.ts";
import { curveOfEyes } from "../answering/curve-of-eyes.ts";
import { patientClusters } from "../answering/patient-clusters.ts";
import type { GroupRate } from "../failure-rate/rate-of-group.ts";

export const differenceMethods = ["Newcombe", "Miettinen–Nurminen"] as const;
export type DifferenceMethod = (typeof differenceMethods)[number];

export const testsOffered = [
  "by expected counts",
  "chi-square",
  "chi-square with Yates' correction",
  "Fisher's exact",
  "Fisher's mid-P",
] as const;
export type TestOffered = (typeof testsOffered)[number];

/** Below this expected count the exact test stands in for chi-square (Cochran 1954). */
const leastExpected = 5;

export interface NamedTest {
  /** As it stands beside its p: "chi-square test", "Fisher's exact test". */
  readonly name: string;
  readonly p: number;
}

/** One group set against another: shares are fractions of 1, null where not estimable. */
export interface TwoCompared {
  readonly first: GroupRate;
  readonly second: GroupRate;
  readonly difference: ComparisonEstimate | null;
  readonly riskRatio: ComparisonEstimate | null;
  readonly oddsRatio: ComparisonEstimate | null;
  /** Null where a group has no eyes, or none or all failed in both. */
  readonly test: NamedTest | null;
  readonly exact: ExactTest;
  /** The difference of the curves at the window, all eyes in; null where no outcome is known. */
  readonly curve: (ComparisonEstimate & { readonly pValue: number | null }) | null;
}

export interface CompareOptions {
  readonly record: EyeRecord;
  readonly window: TimeWindow | undefined;
  readonly method: DifferenceMethod;
  readonly test: TestOffered;
}

/** First less second (or over second), among eyes whose outcome is known, and by the curves. */
export function compareTwo(
  first: GroupRate,
  second: GroupRate,
  options: CompareOptions,
): TwoCompared {
  const table = tableOf(first, second);
  return {
    first,
    second,
    ...effectsOf(first, second, options),
    test: testOf(table, options.test),
    exact: fisherExact(table),
    curve: curveDifference(first, second, options),
  };
}

type Effects = Pick<TwoCompared, "difference" | "riskRatio" | "oddsRatio">;

/** Clustered by patient where any gives two of these eyes; the score intervals are not. */
function effectsOf(first: GroupRate, second: GroupRate, options: CompareOptions): Effects {
  const table = tableOf(first, second);
  const isScore = options.method === "Miettinen–Nurminen";
  const clustered = clusteredEffects(first, second, options.record);
  const scoreOf = scoreNamed(clustered !== undefined);
  if (isScore) {
    const difference = scoreOf(scoreDifference(table));
    return {
      difference,
      riskRatio: scoreOf(scoreRatio(table)),
      oddsRatio: scoreOf(scoreOddsRatio(table)),
    };
  }
  const own = clustered ?? {
    difference: newcombeDifference(table),
    riskRatio: wideEnough(riskRatio(table)),
    oddsRatio: oddsRatio(table),
  };
  return {
    difference: own.difference,
    riskRatio: own.riskRatio ?? scoreOf(scoreRatio(table)),
    oddsRatio: own.oddsRatio ?? scoreOf(scoreOddsRatio(table)),
  };
}

/** A score interval that passes over two eyes of one patient says so. */
function scoreNamed(hasPairs: boolean) {
  return (score: ComparisonEstimate | null): ComparisonEstimate | null =>
    score === null || !hasPairs
      ? score
      : { ...score, method: `${score.method}, eyes as independent` };
}

/** Undefined where no patient gives two of the eyes, or a group is empty. */
function clusteredEffects(
  first: GroupRate,
  second: GroupRate,
  record: EyeRecord,
): Effects | undefined {
  const eyes = [...first.knownEyes, ...second.knownEyes];
  const clusters = patientClusters(record, eyes);
  if (clusters === undefined) return undefined;
  const failed = new Set([...first.failedEyes, ...second.failedEyes]);
  const hasFailed = eyes.map((eye) => failed.has(eye));
  const side = (from: number, to?: number): ClusteredGroup => ({
    failed: hasFailed.slice(from, to),
    cluster: clusters.slice(from, to),
  });
  return clusteredComparison(side(0, first.eyes), side(first.eyes)) ?? undefined;
}

/** Where all failed in both the logarithm's variance is 0, and its interval says nothing. */
function wideEnough(ratio: RatioEstimate | null): RatioEstimate | null {
  return ratio === null || ratio.logStandardError === 0 ? null : ratio;
}

export function tableOf(first: GroupRate, second: GroupRate): TwoByTwo {
  return {
    first: { failed: first.failed, total: first.eyes },
    second: { failed: second.failed, total: second.eyes },
  };
}

/** The test asked for; by expected counts it is exact where any of them is under 5. */
function testOf(table: TwoByTwo, asked: TestOffered): NamedTest | null {
  const { first, second } = table;
  const rows = [first, second].map(({ failed, total }) => [failed, total - failed]);
  const plain = chiSquareTest(rows);
  if (plain.degreesOfFreedom === 0) return null;
  const exact = fisherExact(table);
  const isSparse = plain.leastExpected < leastExpected;
  const test = asked !== "by expected counts" ? asked : isSparse ? "Fisher's exact" : "chi-square";
  switch (test) {
    case "chi-square":
      return { name: "chi-square test", p: plain.pValue };
    case "chi-square with Yates' correction":
      return { name: `${test}`, p: chiSquareTest(rows, { yates: true }).pValue };
    case "Fisher's exact":
      return { name: "Fisher's exact test", p: exact.pTwoSided };
    case "Fisher's mid-P":
      return { name: "Fisher's exact test, mid-P", p: exact.midP };
  }
}

/** One less the curves: the difference of failure is that of survival with its sign turned. */
function curveDifference(
  first: GroupRate,
  second: GroupRate,
  { record, window }: CompareOptions,
): TwoCompared["curve"] {
  if (window === undefined || first.eyes === 0 || second.eyes === 0) return null;
  const found = survivalDifferenceAt(
    curveOf(record, first),
    curveOf(record, second),
    window.length,
  );
  if (found === null) return null;
  const { estimate, lower, upper, level, method, pValue } = found;
  // Not −0 where the curves agree.
  return { estimate: 0 - estimate, lower: 0 - upper, upper: 0 - lower, level, method, pValue };
}

function curveOf(record: EyeRecord, { knownEyes, unknownEyes }: GroupRate): SurvivalCurve {
  const eyes = [...knownEyes, ...unknownEyes];
  return curveOfEyes(record, eyes);
}
