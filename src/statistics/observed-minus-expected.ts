/**
 * The running sum of observed less expected failures, with limits at each operation.
 *
 * Sign: observed minus expected, so the line rises when there are more failures than expected.
 * (Lovegrove et al., Lancet 1997;350:1128, draw expected minus observed, where up is better: that
 * is `expectedMinusObserved`, the same numbers turned over.) The limits are exact: the fewest and
 * most failures so far with a Poisson-binomial tail of more than (1 - level) / 2, less the
 * expected number. They hold at one operation chosen beforehand; a line that is watched all along
 * crosses them far more often by chance, for which a CUSUM is made.
 */
import { readEvent, requireLevel, requireSameLength } from "./argument-checks.ts";
import { requireRisks } from "./count-distributions.ts";

export interface ObservedMinusExpected {
  readonly observed: Float64Array;
  readonly expected: Float64Array;
  /** Observed minus expected: up is worse. */
  readonly difference: Float64Array;
  /** The least and greatest difference within the limits. */
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly level: number;
}

/** The line after each operation; n operations take n^2 steps. */
export function observedMinusExpected(
  failed: ArrayLike<number | boolean>,
  risk: ArrayLike<number>,
  level = 0.95,
): ObservedMinusExpected {
  requireSameLength({ failed, risk });
  requireRisks("risk", risk);
  requireLevel(level);
  const column = () => new Float64Array(risk.length);
  const line = { observed: column(), expected: column(), difference: column() };
  const limits = { lower: column(), upper: column() };
  const probabilities = new Float64Array(risk.length + 1);
  probabilities[0] = 1;
  let observed = 0;
  let expected = 0;
  for (let i = 0; i < risk.length; i++) {
    observed += readEvent(failed[i], i);
    expected += risk[i]!;
    addEye(probabilities, i, risk[i]!);
    const [fewest, most] = central(probabilities, i + 1, (1 - level) / 2);
    line.observed[i] = observed;
    line.expected[i] = expected;
    line.difference[i] = observed - expected;
    limits.lower[i] = fewest - expected;
    limits.upper[i] = most - expected;
  }
  return { ...line, ...limits, level };
}

/** The same line as expected minus observed: up is better. */
export function expectedMinusObserved(
  failed: ArrayLike<number | boolean>,
  risk: ArrayLike<number>,
  level = 0.95,
): Omit<ObservedMinusExpected, "observed" | "expected"> {
  const line = observedMinusExpected(failed, risk, level);
  const turned = (column: Float64Array) => column.map((value) => 0 - value);
  return {
    difference: turned(line.difference),
    lower: turned(line.upper),
    upper: turned(line.lower),
    level,
  };
}

/** Adds one eye to the distribution of failures among `eyes` eyes, in place. */
function addEye(probabilities: Float64Array, eyes: number, risk: number): void {
  for (let k = eyes + 1; k > 0; k--) {
    probabilities[k] = (1 - risk) * probabilities[k]! + risk * probabilities[k - 1]!;
  }
  probabilities[0] = (1 - risk) * probabilities[0]!;
}

/** The fewest and the most failures whose own tail is more than `tail`. */
function central(probabilities: Float64Array, eyes: number, tail: number): [number, number] {
  let fewest = 0;
  for (let sum = probabilities[0]!; sum <= tail; sum += probabilities[fewest]!) fewest++;
  let most = eyes;
  for (let sum = probabilities[most]!; sum <= tail; sum += probabilities[most]!) most--;
  return [fewest, most];
}
