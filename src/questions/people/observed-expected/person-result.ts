import { type BetaBinomialFit, fitBetaBinomial } from "../../../statistics/beta-binomial.ts";
import type { Interval } from "../../../statistics/interval.ts";
import { rankUncertainty } from "../../../statistics/rank-uncertainty.ts";
import {
  rateBelief,
  type ShrunkenRate,
  shrunkenRates,
} from "../../../statistics/shrunken-rates.ts";
import { wilsonInterval } from "../../../statistics/wilson-interval.ts";
import type { Group } from "../../answering/grouping.ts";
import { type ExactRatio, exactRatio, type RatioLimits } from "../exact-ratio.ts";
import type { ExpectedRisks, RisksOf } from "../expected-risks.ts";
import { among, type JudgedEyes } from "../judged-eyes.ts";

/** One person's failures beside those expected. Shares are fractions of 1. */
export interface PersonResult {
  readonly label: string;
  /** Known, unknown and too recent eyes of this person. */
  readonly judged: JudgedEyes;
  /** Eyes that failed, of all known. */
  readonly failedEyes: readonly number[];
  readonly rate: number | null;
  readonly interval: Interval | null;
  readonly risks: ExpectedRisks | undefined;
  /** Why nothing can be expected. */
  readonly cannot: string | undefined;
  /** Failures among the eyes that have a risk. */
  readonly observed: number;
  readonly ratio: ExactRatio | null;
  /** The mean expected risk: the case mix. */
  readonly meanRisk: number | null;
  /** The ratio times the rate that it is set against; at most 1. */
  readonly adjusted: {
    readonly estimate: number;
    readonly lower: number;
    readonly upper: number;
  } | null;
  readonly shrunken: ShrunkenRate | null;
  /** The probability that the true rate is among the worst quarter of the people; null untold. */
  readonly worstQuarter: number | null;
}

/** The people, and how much they differ. */
export interface PeopleResults {
  readonly people: readonly PersonResult[];
  /** Null where the model has no estimate, as where nobody failed. */
  readonly model: BetaBinomialFit | null;
}

/** Fewer people than this have no quarters. */
const fewestForQuarters = 4;

/** Each person's result, in the order of the groups; `standard` is the rate adjusted rates are on. */
export function peopleResults(
  groups: readonly Group[],
  about: {
    readonly judged: JudgedEyes;
    readonly risksOf: RisksOf;
    readonly standard: number;
    readonly limits: RatioLimits;
  },
): PeopleResults {
  const eyesOf = groups.map(({ eyes }) => among(about.judged, eyes));
  const counts = eyesOf.map(({ known, hasFailed }) => ({
    failed: known.filter(hasFailed).length,
    total: known.length,
  }));
  const model = counts.length < 2 ? null : fitBetaBinomial(counts);
  const shrunken = model === null ? [] : shrunkenRates(counts, model);
  const ranks =
    model === null || model.intraclass === 0 || counts.length < fewestForQuarters
      ? []
      : rankUncertainty(counts.map((unit) => rateBelief(unit, model)));
  return {
    model,
    people: groups.map(({ label }, position) => ({
      ...ownResult(label, eyesOf[position] ?? about.judged, about),
      shrunken: shrunken[position] ?? null,
      worstQuarter: ranks[position]?.worstQuarter ?? null,
    })),
  };
}

type OwnResult = Omit<PersonResult, "shrunken" | "worstQuarter">;

/** What one person's eyes say, others aside. */
export function ownResult(
  label: string,
  judged: JudgedEyes,
  about: { readonly risksOf: RisksOf; readonly standard: number; readonly limits: RatioLimits },
): OwnResult {
  const { known, hasFailed } = judged;
  const failedEyes = known.filter(hasFailed);
  const found = about.risksOf(known);
  const risks = "cannot" in found ? undefined : found;
  const observed = risks?.eyes.filter(hasFailed).length ?? 0;
  const ratio =
    risks === undefined ? null : exactRatio(observed, risks.risks, { method: about.limits });
  const at = (value: number): number => Math.min(1, value * about.standard);
  return {
    label,
    judged,
    failedEyes,
    rate: known.length === 0 ? null : failedEyes.length / known.length,
    interval: wilsonInterval(failedEyes.length, known.length),
    risks,
    cannot: "cannot" in found ? found.cannot : undefined,
    observed,
    ratio,
    meanRisk: ratio === null || risks === undefined ? null : ratio.expected / risks.eyes.length,
    adjusted:
      ratio === null
        ? null
        : { estimate: at(ratio.estimate), lower: at(ratio.lower), upper: at(ratio.upper) },
  };
}
