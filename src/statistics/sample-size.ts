/**
 * How many cases it takes before a rate could tell anything.
 *
 * Against a fixed target: the exact one-sided binomial test rejects the target at the smallest count c with
 * P(X >= c | target) <= alpha (or P(X <= c), when better is looked for); its power is that tail at the
 * other rate. Power rises with cases in a saw-tooth, so the number given is the one from which on it never
 * again falls below what was asked (Chernick and Liu 2002). Two groups: the normal formula with unequal
 * variances and Fleiss's continuity correction (Casagrande, Pike and Smith 1978; Fleiss, Tytun and Ury 1980).
 */
import { requireBetween, requireCount } from "./argument-checks.ts";
import { binomialLowerTail, binomialUpperTail, normalQuantile } from "./distributions.ts";

export interface DetectionDesign {
  /** The failure rate that is held against. */
  readonly target: number;
  /** The failure rate that should be noticed. */
  readonly other: number;
  /** One-sided chance of crying wolf; 0.025 unless said. */
  readonly alpha?: number;
  /** Chance of noticing; 0.8 unless said. */
  readonly power?: number;
}

export interface CasesNeeded {
  readonly cases: number;
  /** The count of failures at which the test rejects the target with that many cases. */
  readonly criticalCount: number;
  readonly power: number;
}

const MOST_CASES = 200_000;

/** The cases one unit needs; null when it would take more than 200,000. */
export function casesAgainstTarget(design: DetectionDesign): CasesNeeded | null {
  const { target, other, alpha = 0.025, power = 0.8 } = requireDesign(design);
  const guess = normalCases(design);
  const last = Math.ceil(2 * guess + 50);
  if (last > MOST_CASES) return null;
  let cases = last;
  while (cases > 1 && exactPower(cases - 1, { target, other, alpha }).power >= power) cases--;
  return { cases, ...exactPower(cases, { target, other, alpha }) };
}

/** The critical count and power of the exact one-sided test with so many cases. */
export function exactPower(
  cases: number,
  { target, other, alpha }: { target: number; other: number; alpha: number },
): { criticalCount: number; power: number } {
  requireCount("cases", cases);
  for (const [name, share] of Object.entries({ target, other, alpha })) {
    requireBetween(name, share, 0, 1);
  }
  const isWorse = other > target;
  const tail = isWorse ? binomialUpperTail : binomialLowerTail;
  const rejects = (count: number) => tail(count, cases, target) <= alpha;
  let [inside, outside] = isWorse ? [0, cases + 1] : [cases, -1];
  while (Math.abs(outside - inside) > 1) {
    const middle = Math.floor((inside + outside) / 2);
    if (rejects(middle)) outside = middle;
    else inside = middle;
  }
  return { criticalCount: outside, power: tail(outside, cases, other) };
}

/**
 * The cases each of two equal groups needs for rates `target` and `other`, two-sided at twice alpha.
 */
export function casesPerGroup(design: DetectionDesign): { plain: number; corrected: number } {
  const { target, other, alpha = 0.025, power = 0.8 } = requireDesign(design);
  const mean = (target + other) / 2;
  const difference = Math.abs(target - other);
  const under = normalQuantile(1 - alpha) * Math.sqrt(2 * mean * (1 - mean));
  const apart = normalQuantile(power) * Math.sqrt(target * (1 - target) + other * (1 - other));
  const plain = ((under + apart) / difference) ** 2;
  const corrected = (plain / 4) * (1 + Math.sqrt(1 + 4 / (plain * difference))) ** 2;
  return { plain: Math.ceil(plain), corrected: Math.ceil(corrected) };
}

/** The normal approximation to the cases one unit needs, where the exact search starts. */
function normalCases({ target, other, alpha = 0.025, power = 0.8 }: DetectionDesign): number {
  const under = normalQuantile(1 - alpha) * Math.sqrt(target * (1 - target));
  const apart = normalQuantile(power) * Math.sqrt(other * (1 - other));
  return ((under + apart) / (target - other)) ** 2;
}

function requireDesign(design: DetectionDesign): DetectionDesign {
  requireBetween("target", design.target, 0, 1);
  requireBetween("other", design.other, 0, 1);
  requireBetween("alpha", design.alpha ?? 0.025, 0, 0.5);
  requireBetween("power", design.power ?? 0.8, 0, 1);
  if (design.target === design.other) {
    throw new RangeError(`target and other are both ${design.target}; expected two rates`);
  }
  return design;
}
