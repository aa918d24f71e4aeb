/** Whether a vector is a combination of those that the space was made from. */
export interface RowSpace {
  holds(vector: readonly number[]): boolean;
}

/**
 * Whether vectors of whole numbers are combinations of others, modulo a prime below 2^25, so that
 * products of two residues are whole numbers below 2^50. It lets through every vector that is one
 * over the fractions, but where the prime happens to divide.
 */
export function rowSpace(vectors: readonly (readonly number[])[], prime: number): RowSpace {
  const basis: { readonly pivot: number; readonly vector: Float64Array }[] = [];
  // The quotient is less than 2^25 and no nearer than 2^-25 to the next whole number: its floor is exact.
  const residue = (each: number) => each - prime * Math.floor(each / prime);
  const reduced = (vector: readonly number[]): Float64Array => {
    const left = Float64Array.from(vector, residue);
    for (const { pivot, vector: by } of basis) {
      const factor = prime - (left[pivot] as number);
      if (factor === prime) continue;
      for (let at = pivot; at < left.length; at++) {
        left[at] = residue((left[at] as number) + factor * (by[at] as number));
      }
    }
    return left;
  };
  for (const vector of vectors) {
    const left = reduced(vector);
    const pivot = left.findIndex((each) => each !== 0);
    if (pivot === -1) continue;
    const inverse = power(left[pivot] as number, prime - 2, residue);
    basis.push({ pivot, vector: left.map((each) => residue(each * inverse)) });
  }
  return { holds: (vector) => reduced(vector).every((each) => each === 0) };
}

function power(base: number, exponent: number, residue: (each: number) => number): number {
  let result = 1;
  for (let square = base, left = exponent; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) result = residue(result * square);
    square = residue(square * square);
  }
  return result;
}
