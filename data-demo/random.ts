/** Draws from one seeded stream: the same seed gives the same file, on any machine. */
export interface Random {
  /** In [0, 1). */
  uniform(): number;
  chance(probability: number): boolean;
  /** A whole number from `least` to `most`, both possible. */
  whole(least: number, most: number): number;
  normal(mean: number, standardDeviation: number): number;
  /** One of the values, in proportion to its weight. Weights of 0 or less are never taken. */
  weighted<Value>(weights: readonly (readonly [Value, number])[]): Value;
}

/**
 * sfc32 of Chris Doty-Humphrey's PractRand (a 128-bit chaotic generator with a counter), its
 * state filled from the seed and run twelve times before first use, as its author advises.
 */
export function seededRandom(seed: number): Random {
  const next = sfc32(seed >>> 0);
  const uniform = (): number => next() / 4_294_967_296;
  return {
    uniform,
    chance: (probability) => uniform() < probability,
    whole: (least, most) => least + Math.floor(uniform() * (most - least + 1)),
    normal: (mean, standardDeviation) => mean + standardDeviation * standardNormal(uniform),
    weighted: (weights) => weightedValue(weights, uniform()),
  };
}

function sfc32(seed: number): () => number {
  let [a, b, c, counter] = [0, seed, 0x9e3779b9, 1];
  const next = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    c |= 0;
    return sum >>> 0;
  };
  for (let run = 0; run < 12; run++) next();
  return next;
}

/** Box and Muller 1958, the cosine of the pair. */
function standardNormal(uniform: () => number): number {
  const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
  return radius * Math.cos(2 * Math.PI * uniform());
}

function weightedValue<Value>(
  weights: readonly (readonly [Value, number])[],
  share: number,
): Value {
  const total = weights.reduce((sum, [, weight]) => sum + Math.max(0, weight), 0);
  let left = share * total;
  for (const [value, weight] of weights) {
    left -= Math.max(0, weight);
    if (left < 0) return value;
  }
  throw new RangeError("Nothing to choose from: every weight is 0.");
}
