import { whatCasesTell } from "../../statistics/enough-cases.ts";
import { casesAgainstTarget } from "../../statistics/sample-size.ts";
import { count, percent } from "../answering/wording.ts";

/** A failure rate that is held against, and the doubled one that should be noticed. */
export interface Doubling {
  readonly target: number;
  readonly worse: number;
}

/** Twice the rate; where that is no rate, half-way from it to 1. Undefined where none can be. */
export function doubling(target: number): Doubling | undefined {
  if (!(target > 0 && target < 1)) return undefined;
  return { target, worse: target < 0.5 ? 2 * target : (1 + target) / 2 };
}

/**
 * " To notice a rate of 26.0% where 13.0% is expected (4 times in 5, crying wolf once in 40 on this
 * side) takes 63 eyes.", said beside every comparison of people.
 */
export function enoughWords(design: Doubling | undefined): string {
  if (design === undefined) return "";
  const { target, worse } = design;
  const needed = casesAgainstTarget({ target, other: worse });
  const takes =
    needed === null ? "takes more than 200,000 eyes" : `takes ${count(needed.cases)} eyes`;
  return ` To notice a rate of ${percent(worse)} where ${percent(target)} is expected, 4 times in 5 and with a false alarm 1 time in 40, ${takes}.`;
}

/** The chance that so many eyes show a doubled rate to be above the target; null where unasked. */
export function chanceToNotice(eyes: number, design: Doubling | undefined): number | null {
  return design === undefined ? null : whatCasesTell(eyes, design).power;
}
