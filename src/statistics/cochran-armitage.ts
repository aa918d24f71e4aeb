/**
 * The Cochran–Armitage test for trend of a proportion over ordered groups.
 *
 * With x_i of n_i failed, scores s_i and overall share p: z = sum s_i (x_i - n_i p) divided by
 * sqrt(p (1 - p) [sum n_i s_i^2 - (sum n_i s_i)^2 / N]) (Cochran 1954; Armitage 1955). Scores are 1,
 * 2, 3, ... unless given. Where nobody or everybody failed, or the scores of the people do not
 * differ, there is no trend to test: z is 0, p is 1.
 */
import { requireNumbers, requirePartOfWhole, requireSameLength } from "./argument-checks.ts";
import { normalTwoSided } from "./distributions.ts";
import type { TrendTest } from "./log-rank.ts";
import type { Part } from "./two-by-two.ts";

/** The test over `groups` in their order. */
export function cochranArmitage(
  groups: readonly Part[],
  scores: readonly number[] = groups.map((_, i) => i + 1),
): TrendTest {
  requireSameLength({ groups, scores });
  requireNumbers("scores", scores);
  for (const { failed, total } of groups) requirePartOfWhole(failed, total);
  const sum = (value: (part: Part, score: number) => number) =>
    groups.reduce((total, part, i) => total + value(part, scores[i]!), 0);
  const everyone = sum((part) => part.total);
  const share = everyone === 0 ? 0 : sum((part) => part.failed) / everyone;
  const centre = everyone === 0 ? 0 : sum((part, s) => part.total * s) / everyone;
  // about their mean, so that scores such as calendar years lose no digits
  const difference = sum((part, s) => (s - centre) * (part.failed - part.total * share));
  const variance = share * (1 - share) * sum((part, s) => part.total * (s - centre) ** 2);
  const z = variance <= 0 ? 0 : difference / Math.sqrt(variance);
  return { z, chiSquare: z * z, pValue: normalTwoSided(z) };
}
