/**
 * The exact power of a comparison of two proportions: the probability, summed over all pairs of
 * counts, that the test calls the two groups different (Casagrande, Pike and Smith, Applied
 * Statistics 1978;27:176; Suissa and Shuster 1985). With equal rates it is the real size of the
 * test.
 *
 * Tests, all two-sided: "Fisher" (tables no more probable than the observed one), its "mid-P", and
 * "chi-square" without correction. Counts whose probability is below 1e-14 in all are left out.
 */
import { requireBetween, requireCount } from "./argument-checks.ts";
import { binomialCounts, requireRisk } from "./count-distributions.ts";
import { normalQuantile } from "./distributions.ts";
import { casesPerGroup } from "./sample-size.ts";

export type TwoGroupTest = "Fisher" | "mid-P" | "chi-square";

export interface TwoGroups {
  readonly first: { readonly rate: number; readonly total: number };
  readonly second: { readonly rate: number; readonly total: number };
}

export interface TwoGroupOptions {
  /** Two-sided; 0.05 unless said. */
  readonly alpha?: number;
  readonly test?: TwoGroupTest;
}

/** The probability that the test rejects equality; 0 where a group is empty. */
export function twoGroupPower({ first, second }: TwoGroups, options: TwoGroupOptions = {}): number {
  const { alpha = 0.05, test = "Fisher" } = options;
  requireBetween("alpha", alpha, 0, 1);
  for (const group of [first, second]) requireCount("total", group.total);
  const one = likelyCounts(first);
  const two = likelyCounts(second);
  let power = 0;
  for (let failed = one.from + two.from; failed <= one.to + two.to; failed++) {
    const rejects = rejection({ failed, sizes: [first.total, second.total], alpha, test });
    for (
      let x = Math.max(one.from, failed - two.to);
      x <= Math.min(one.to, failed - two.from);
      x++
    ) {
      if (rejects(x)) power += one.probability(x) * two.probability(failed - x);
    }
  }
  return Math.min(1, power);
}

export interface GroupSizeDesign extends TwoGroupOptions {
  readonly rates: readonly [number, number];
  /** The chance to notice; 0.8 unless said. */
  readonly power?: number;
}

/** Beyond it counting out takes seconds, and the normal formula with correction is as good. */
const MOST_PER_GROUP = 1500;

/**
 * The eyes that each of two equal groups needs, from which on the exact power does not fall below
 * `power` again as far as it was followed (8% and ten eyes beyond the normal formula with
 * correction). Null where that formula (`casesPerGroup`) gives more than 1500.
 */
export function exactCasesPerGroup(design: GroupSizeDesign): number | null {
  const { rates, power = 0.8, alpha = 0.05 } = design;
  const [target, other] = rates;
  const { corrected } = casesPerGroup({ target, other, alpha: alpha / 2, power });
  if (corrected > MOST_PER_GROUP) return null;
  const suffices = (total: number) =>
    twoGroupPower({ first: { rate: target, total }, second: { rate: other, total } }, design) >=
    power;
  let total = Math.ceil(1.08 * corrected) + 10;
  while (!suffices(total)) total *= 2;
  while (total > 1 && suffices(total - 1)) total--;
  return total;
}

function likelyCounts({ rate, total }: { rate: number; total: number }) {
  requireRisk("rate", rate);
  const { probability, mode, lowerTail, upperTail } = binomialCounts(total, rate);
  let from = mode;
  let to = mode;
  while (from > 0 && lowerTail(from - 1) > 1e-15) from--;
  while (to < total && upperTail(to + 1) > 1e-15) to++;
  const all = Array.from({ length: to - from + 1 }, (_, i) => probability(from + i));
  return { from, to, probability: (count: number) => all[count - from]! };
}

interface Margins {
  /** Failures in both groups together. */
  readonly failed: number;
  readonly sizes: readonly [number, number];
  readonly alpha: number;
  readonly test: TwoGroupTest;
}

/** Whether the test rejects, given both margins, by the failures in the first group. */
function rejection(margins: Margins): (x: number) => boolean {
  return margins.test === "chi-square" ? chiSquareRejection(margins) : exactRejection(margins);
}

function chiSquareRejection({ failed, sizes, alpha }: Margins): (x: number) => boolean {
  const [n1, n2] = sizes;
  const total = n1 + n2;
  const critical = normalQuantile(1 - alpha / 2) ** 2;
  const variance = (n1 * n2 * failed * (total - failed)) / total ** 3;
  return (x) =>
    variance > 0 && (x - (n1 * failed) / total) ** 2 / variance >= critical * (1 - 1e-12);
}

function exactRejection({ failed, sizes, alpha, test }: Margins): (x: number) => boolean {
  const { least, probabilities } = hypergeometricShape(failed, sizes);
  const order = Array.from(probabilities.keys()).sort(
    (a, b) => probabilities[a]! - probabilities[b]!,
  );
  const rejected = new Uint8Array(probabilities.length);
  let below = 0;
  for (let i = 0; i < order.length; ) {
    const most = probabilities[order[i]!]! * (1 + 1e-7);
    let equal = 0;
    let next = i;
    while (next < order.length && probabilities[order[next]!]! <= most) {
      equal += probabilities[order[next++]!]!;
    }
    const p = below + (test === "mid-P" ? equal / 2 : equal);
    if (p > alpha * (1 + 1e-12)) break;
    for (; i < next; i++) rejected[order[i]!] = 1;
    below += equal;
  }
  return (x) => rejected[x - least] === 1;
}

/** The hypergeometric probabilities of the first group's failures, by ratios, made to sum to 1. */
function hypergeometricShape(failed: number, [n1, n2]: readonly [number, number]) {
  const least = Math.max(0, failed - n2);
  const most = Math.min(n1, failed);
  const probabilities = new Float64Array(most - least + 1);
  const ratio = (x: number) => ((n1 - x + 1) * (failed - x + 1)) / (x * (n2 - failed + x));
  const mode = Math.min(most, Math.max(least, Math.round((failed * n1) / (n1 + n2 || 1))));
  probabilities[mode - least] = 1;
  for (let x = mode + 1; x <= most; x++) {
    probabilities[x - least] = probabilities[x - 1 - least]! * ratio(x);
  }
  for (let x = mode; x > least; x--)
    probabilities[x - 1 - least] = probabilities[x - least]! / ratio(x);
  const sum = probabilities.reduce((a, b) => a + b, 0);
  return { least, probabilities: probabilities.map((p) => p / sum) };
}
