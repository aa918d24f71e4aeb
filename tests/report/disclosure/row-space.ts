/** The greatest prime below 2^25, so that products of two residues are whole numbers below 2^50. */
const prime = 33_554_393;

/**
 * Whether vectors of whole numbers are combinations of others, modulo a prime: a sieve that lets
 * through every vector that is one over the fractions, but where the prime happens to divide.
 */
export function rowSpace(vectors: readonly (readonly number[])[]): {
  holds(vector: readonly number[]): boolean;
} {
  const basis: { readonly pivot: number; readonly vector: Float64Array }[] = [];
  const reduced = (vector: readonly number[]): Float64Array => {
    const left = Float64Array.from(vector, (each) => ((each % prime) + prime) % prime);
    for (const { pivot, vector: by } of basis) {
      const factor = prime - (left[pivot] ?? 0);
      if (factor === prime) continue;
      for (let at = pivot; at < left.length; at++) {
        left[at] = ((left[at] ?? 0) + factor * (by[at] ?? 0)) % prime;
      }
    }
    return left;
  };
  for (const vector of vectors) {
    const left = reduced(vector);
    const pivot = left.findIndex((each) => each !== 0);
    if (pivot === -1) continue;
    const inverse = power(left[pivot] ?? 1, prime - 2);
    basis.push({ pivot, vector: left.map((each) => (each * inverse) % prime) });
  }
  return { holds: (vector) => reduced(vector).every((each) => each === 0) };
}

function power(base: number, exponent: number): number {
  let result = 1;
  for (let square = base, left = exponent; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) result = (result * square) % prime;
    square = (square * square) % prime;
  }
  return result;
}
