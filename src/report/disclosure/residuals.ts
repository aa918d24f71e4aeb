/**
 * Vectors reduced by a growing basis, modulo a prime: what is left of each when everything that
 * the basis can make of it is taken away (Gaussian elimination).
 *
 * The prime stands below 2^26, so that every product of two residues stands below 2^52 and is
 * exact in double precision. A vector in the span over the rationals is in the span modulo the
 * prime, unless the prime divides a denominator of its coefficients; two primes guard against that.
 * The other way round the prime can only find a dependence too many, which suppresses more.
 */
export class Residuals {
  readonly #prime: number;
  readonly #vectors: readonly Float64Array[];

  /** Throws where the modulus is not below 2^26. */
  constructor(vectors: readonly ArrayLike<number>[], prime: number) {
    if (prime >= 2 ** 26) throw new RangeError(`${prime} is not below 2^26`);
    this.#prime = prime;
    this.#vectors = vectors.map((vector) =>
      Float64Array.from(vector, (each) => ((each % prime) + prime) % prime),
    );
  }

  /** Whether one vector would be made of the basis once the other belonged to it. */
  isMadeWith(position: number, other: number): boolean {
    const by = this.#vector(other);
    const pivot = pivotOf(by);
    const vector = this.#vector(position);
    if (pivot === -1) return pivotOf(vector) === -1;
    const factor = this.#quotient(vector[pivot] ?? 0, by[pivot] ?? 1);
    return vector.every((each, at) => each === (factor * (by[at] ?? 0)) % this.#prime);
  }

  /** Whether the basis makes all of it. */
  isNothing(position: number): boolean {
    return pivotOf(this.#vector(position)) === -1;
  }

  /** Takes the vector into the basis and reduces all others by it. */
  take(position: number): void {
    const by = Float64Array.from(this.#vector(position));
    const pivot = pivotOf(by);
    if (pivot === -1) return;
    const inverse = this.#quotient(1, by[pivot] ?? 1);
    for (const vector of this.#vectors) this.#reduce(vector, by, { pivot, inverse });
  }

  #vector(position: number): Float64Array {
    const vector = this.#vectors[position];
    if (vector === undefined) throw new RangeError(`there is no vector ${position}`);
    return vector;
  }

  #reduce(vector: Float64Array, by: Float64Array, at: { pivot: number; inverse: number }): void {
    const there = vector[at.pivot] ?? 0;
    if (there === 0) return;
    const prime = this.#prime;
    const factor = prime - ((there * at.inverse) % prime);
    for (let each = at.pivot; each < vector.length; each++) {
      const other = by[each] as number;
      if (other !== 0) vector[each] = ((vector[each] as number) + factor * other) % prime;
    }
  }

  /** By Fermat: the inverse of b is b^(prime - 2). */
  #quotient(a: number, b: number): number {
    let result = a;
    let power = b;
    for (let left = this.#prime - 2; left > 0; left = Math.floor(left / 2)) {
      if (left % 2 === 1) result = (result * power) % this.#prime;
      power = (power * power) % this.#prime;
    }
    return result;
  }
}

/** The first entry that is not 0; -1 where all are. */
function pivotOf(vector: Float64Array): number {
  return vector.findIndex((each) => each !== 0);
}
