/**
 * What a number of cases can tell about a failure rate, and how many it takes to tell anything:
 * to be shown beside every comparison of people.
 *
 * All by the exact one-sided binomial test of the target. Without a single failure in n eyes the
 * rate is shown to be under the target once (1 - target)^n <= alpha (at alpha 0.05 about 3 /
 * target eyes: Hanley and Lippman-Hand, JAMA 1983;249:1743).
 */
import { requireBetween, requireCount } from "./argument-checks.ts";
import { type CasesNeeded, casesAgainstTarget, exactPower } from "./sample-size.ts";

export interface TellingDesign {
  /** The failure rate that is held against. */
  readonly target: number;
  /** The higher failure rate that should be noticed. */
  readonly worse: number;
  /** One-sided chance of a false alarm; 0.025 unless said. */
  readonly alpha?: number;
  /** The chance to notice; 0.8 unless said. */
  readonly power?: number;
}

export interface EnoughCases {
  /** Cases, and failures among them, that notice `worse` with the wanted power; null past reach. */
  readonly needed: CasesNeeded | null;
  /** Cases without a single failure that show a rate under the target. */
  readonly withoutFailure: number;
}

/** The cases needed to notice `worse`, and the cases without failure that clear the target. */
export function enoughCases(design: TellingDesign): EnoughCases {
  const { target, worse, alpha = 0.025, power = 0.8 } = design;
  requireWorse(design);
  return {
    needed: casesAgainstTarget({ target, other: worse, alpha, power }),
    withoutFailure: casesWithoutFailure(target, alpha),
  };
}

export interface CasesTell {
  /** The chance that this many cases show that the rate is above the target, if it is `worse`. */
  readonly power: number;
  /** The failures that would show it; null where not even all failing would. */
  readonly failuresToShow: number | null;
  /** Whether none failed would show that the rate is under the target. */
  readonly canShowBetter: boolean;
  readonly isEnough: boolean;
}

/** What `cases` can tell under the design. */
export function whatCasesTell(cases: number, design: TellingDesign): CasesTell {
  requireCount("cases", cases);
  requireWorse(design);
  const { target, worse, alpha = 0.025, power: wanted = 0.8 } = design;
  const { criticalCount, power } = exactPower(cases, { target, other: worse, alpha });
  return {
    power,
    failuresToShow: criticalCount > cases ? null : criticalCount,
    canShowBetter: cases >= casesWithoutFailure(target, alpha),
    isEnough: power >= wanted,
  };
}

/** The cases without a failure that show a rate under `target`. */
export function casesWithoutFailure(target: number, alpha = 0.025): number {
  requireBetween("target", target, 0, 1);
  requireBetween("alpha", alpha, 0, 1);
  return Math.ceil(Math.log(alpha) / Math.log1p(-target) - 1e-12);
}

function requireWorse({ target, worse }: TellingDesign): void {
  requireBetween("target", target, 0, 1);
  requireBetween("worse", worse, target, 1);
}
