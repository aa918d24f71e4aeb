import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { TimeWindow } from "../../outcomes/outcome-rules.ts";
import type { TrendTest } from "../../statistics/log-rank.ts";
import type { FigureRecord } from "../answer.ts";
import { effectFigures } from "../answering/effect-cells.ts";
import type { Grouping } from "../answering/grouping.ts";
import { rateFigures } from "../failure-rate/failure-rate-parts.ts";
import type { GroupRate } from "../failure-rate/rate-of-group.ts";
import type { StrataCompared } from "./across-strata.ts";
import type { NamedTest, TwoCompared } from "./compare-two.ts";

/** What the sentence, the table and the chart of a rate difference are all made from. */
export interface DifferenceParts {
  readonly record: EyeRecord;
  readonly grouping: Grouping;
  readonly window: TimeWindow | undefined;
  /** In the record's unit: visits may come this much early. */
  readonly tolerance: number;
  readonly groups: readonly GroupRate[];
  readonly reference: GroupRate | undefined;
  /** Every other group against the reference, in the order of the groups. */
  readonly compared: readonly TwoCompared[];
  /** All groups at once, where there are more than two. */
  readonly overall: (NamedTest & { readonly degreesOfFreedom: number }) | undefined;
  readonly trend: TrendTest | undefined;
  readonly strata: StrataCompared | undefined;
}

/** Eyes whose outcome at the window is not known, over the groups compared. */
export function notKnownOf({ groups }: DifferenceParts): number {
  return groups.reduce((sum, { notKnown }) => sum + notKnown, 0);
}

/** Whether the curves' difference goes before that of the eyes that are known. */
export function leadsWithCurve(parts: DifferenceParts): boolean {
  return notKnownOf(parts) > 0 && parts.compared.some(({ curve }) => curve !== null);
}

/** Of one comparison: the only one of two groups; undefined for more. */
export function onlyOne({ compared }: DifferenceParts): TwoCompared | undefined {
  return compared.length === 1 ? compared[0] : undefined;
}

/** "62 of 133 v 37 of 132", failed of the eyes whose outcome is known. */
export function headline({ groups }: DifferenceParts): string {
  return groups.map(({ failed, eyes }) => `${failed} of ${eyes}`).join(" v ");
}

/**
 * The numbers by name: of the only comparison, then group by group and comparison by comparison.
 */
export function differenceFigures(parts: DifferenceParts): FigureRecord {
  const { groups, compared, reference, overall, trend, strata } = parts;
  const one = onlyOne(parts);
  return {
    headline: headline(parts),
    failure: parts.record.rules?.failure ?? null,
    against: reference?.label ?? null,
    ...(one === undefined ? {} : comparedFigures(one)),
    eyes_known: groups.reduce((sum, each) => sum + each.eyes, 0),
    eyes_compared: groups.reduce((sum, each) => sum + each.eyes + each.notKnown, 0),
    groups: groups.map((each) => ({
      group: each.label,
      all_eyes: each.eyes + each.notKnown,
      ...rateFigures(each),
    })),
    comparisons: compared.map((each) => ({ group: each.first.label, ...comparedFigures(each) })),
    ...(overall === undefined
      ? {}
      : { overall_test: overall.name, overall_p: overall.p, overall_df: overall.degreesOfFreedom }),
    ...(trend === undefined ? {} : { trend_z: trend.z, trend_p: trend.pValue }),
    ...(strata === undefined ? {} : strataFigures(strata)),
  };
}

function comparedFigures(compared: TwoCompared): FigureRecord {
  const { difference, riskRatio, oddsRatio, test, exact, curve } = compared;
  return {
    ...effectFigures("difference", difference),
    interval: difference?.method ?? null,
    ...effectFigures("risk_ratio", riskRatio),
    ...effectFigures("odds_ratio", oddsRatio),
    test: test?.name ?? null,
    p: test?.p ?? null,
    exact_p: exact.pTwoSided,
    mid_p: exact.midP,
    ...effectFigures("curve_difference", curve),
    curve_p: curve?.pValue ?? null,
  };
}

function strataFigures(strata: StrataCompared): FigureRecord {
  const { difference, riskRatio, oddsRatio, test, homogeneity } = strata;
  return {
    ...effectFigures("common_difference", difference),
    ...effectFigures("common_risk_ratio", riskRatio),
    ...effectFigures("common_odds_ratio", oddsRatio),
    common_test: test?.name ?? null,
    common_p: test?.p ?? null,
    homogeneity_chi_square: homogeneity?.taroneStatistic ?? null,
    homogeneity_df: homogeneity?.degreesOfFreedom ?? null,
    homogeneity_p: homogeneity?.taronePValue ?? null,
    strata: strata.strata.map(({ label, compared }) => ({
      stratum: label,
      first_failed: compared.first.failed,
      first_eyes: compared.first.eyes,
      second_failed: compared.second.failed,
      second_eyes: compared.second.eyes,
      ...comparedFigures(compared),
    })),
  };
}
