/**
 * The proportions of two groups fitted by maximum likelihood under a given difference, ratio or odds
 * ratio (Miettinen and Nurminen, Statistics in Medicine 1985;4:213), the first step of their score
 * intervals.
 *
 * The likelihood has closed forms, the roots of a cubic and of quadratics, but these cancel where a
 * proportion is near 0 or 1 or two roots are near one another. Here the slope of the likelihood, which
 * falls all the way, is followed to 0 on the logit of one proportion within the range that is left to
 * it. Shares failed and held are kept side by side, each with all of its digits.
 */
import { findRoot } from "./find-root.ts";
import { cellsOf, type TwoByTwo } from "./two-by-two.ts";

/** The share failed of each group, and the share held, which is 1 less it. */
export interface FittedProportions {
  readonly failed1: number;
  readonly held1: number;
  readonly failed2: number;
  readonly held2: number;
}

/** Fitted with the first share failed larger than the second by `difference`, from -1 to 1. */
export function fittedAtDifference(table: TwoByTwo, difference: number): FittedProportions {
  if (difference < 0) return swapped(fittedAtDifference(swappedGroups(table), -difference));
  const cells = cellsOf(table);
  const width = 1 - difference;
  const pairAt = (share: number, rest: number) => ({
    failed1: difference + width * share,
    held1: width * rest,
    failed2: width * share,
    held2: difference + width * rest,
  });
  return highest(pairAt, ({ failed1, held1, failed2, held2 }) => {
    const first = cells.firstFailed * held1 * (failed1 > 0 ? failed2 / failed1 : 1);
    const second = cells.secondHeld * failed2 * (held2 > 0 ? held1 / held2 : 1);
    return first - cells.firstHeld * failed2 + cells.secondFailed * held1 - second;
  });
}

/** Fitted with the first share failed `exp(logRatio)` times the second. */
export function fittedAtRatio(table: TwoByTwo, logRatio: number): FittedProportions {
  if (logRatio < 0) return swapped(fittedAtRatio(swappedGroups(table), -logRatio));
  const cells = cellsOf(table);
  const inverse = Math.exp(-logRatio);
  const spare = -Math.expm1(-logRatio);
  const pairAt = (share: number, rest: number) => ({
    failed1: share,
    held1: rest,
    failed2: share * inverse,
    held2: spare + rest * inverse,
  });
  return highest(pairAt, ({ failed1, held1, failed2, held2 }) => {
    const held = cells.firstHeld * failed1 + cells.secondHeld * failed2 * (held1 / held2);
    return (cells.firstFailed + cells.secondFailed) * held1 - held;
  });
}

/** Fitted with the odds of failing of the first group `exp(logOdds)` times those of the second. */
export function fittedAtOdds(table: TwoByTwo, logOdds: number): FittedProportions {
  const cells = cellsOf(table);
  const [n1, n2] = [table.first.total, table.second.total];
  const failed = cells.firstFailed + cells.secondFailed;
  const held = cells.firstHeld + cells.secondHeld;
  const pairAt = (logit: number) => ({
    failed1: expit(logit + logOdds),
    held1: expit(-logit - logOdds),
    failed2: expit(logit),
    held2: expit(-logit),
  });
  const excess = (logit: number) => {
    const { failed1, failed2, held1, held2 } = pairAt(logit);
    return failed <= held ? n1 * failed1 + n2 * failed2 - failed : held - n1 * held1 - n2 * held2;
  };
  const overall = Math.log(failed / held);
  const from = overall - Math.max(0, logOdds) - 1;
  return pairAt(findRoot(excess, { from, to: overall - Math.min(0, logOdds) + 1 }));
}

/** Shares outside this range of logits are 0 or 1. */
const FARTHEST_LOGIT = 60;

/** The pair at which the slope, falling with the share, is 0, or at the end that it does not leave. */
function highest(
  pairAt: (share: number, rest: number) => FittedProportions,
  slope: (pair: FittedProportions) => number,
): FittedProportions {
  const at = (logit: number) => slope(pairAt(expit(logit), expit(-logit)));
  if (at(-FARTHEST_LOGIT) <= 0) return pairAt(0, 1);
  if (at(FARTHEST_LOGIT) >= 0) return pairAt(1, 0);
  const logit = findRoot(at, { from: -FARTHEST_LOGIT, to: FARTHEST_LOGIT });
  return pairAt(expit(logit), expit(-logit));
}

function expit(logit: number): number {
  return 1 / (1 + Math.exp(-logit));
}

function swappedGroups({ first, second }: TwoByTwo): TwoByTwo {
  return { first: second, second: first };
}

function swapped({ failed1, held1, failed2, held2 }: FittedProportions): FittedProportions {
  return { failed1: failed2, held1: held2, failed2: failed1, held2: held1 };
}
