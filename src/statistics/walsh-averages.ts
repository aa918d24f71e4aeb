/**
 * Order statistics of the Walsh averages (d_i + d_j) / 2, i <= j, of a sample, without listing its
 * n (n + 1) / 2 averages: how many are at most x is counted in one walk along the ordered sample, the
 * value of a rank is closed in by bisection, and what is left between the bounds is the average itself
 * (after Johnson and Mizoguchi, SIAM Journal on Computing 1978;7:147).
 */

/** The average of the given rank, from 1, of an ascending sample. */
export function walshAverage(ordered: Float64Array, rank: number): number {
  const least = ordered[0]!;
  let reached = ordered.at(-1)!;
  if (least === reached) return least;
  let below = 2 * least - reached;
  const precision = 2 ** -46 * Math.max(Math.abs(least), Math.abs(reached));
  while (reached - below > precision) {
    const middle = (below + reached) / 2;
    if (averagesUpTo(ordered, middle) >= rank) reached = middle;
    else below = middle;
  }
  return leastAverageAbove(ordered, below);
}

/** How many Walsh averages are at most `value`. */
function averagesUpTo(ordered: Float64Array, value: number): number {
  let count = 0;
  let j = ordered.length - 1;
  for (let i = 0; i < ordered.length; i++) {
    while (j >= i && (ordered[i]! + ordered[j]!) / 2 > value) j--;
    if (j < i) break;
    count += j - i + 1;
  }
  return count;
}

/** The smallest Walsh average above `value`. */
function leastAverageAbove(ordered: Float64Array, value: number): number {
  let least = Infinity;
  let j = ordered.length - 1;
  for (let i = 0; i < ordered.length; i++) {
    while (j > i && (ordered[i]! + ordered[j - 1]!) / 2 > value) j--;
    const average = (ordered[i]! + ordered[Math.max(i, j)]!) / 2;
    if (average > value && average < least) least = average;
  }
  return least;
}
