/**
 * A seeded source of random numbers: the same seed gives the same numbers on every machine.
 *
 * xoshiro128** (Blackman and Vigna, ACM Transactions on Mathematical Software 2021;47:36), its state
 * filled from the seed by splitmix32, the mixing function of MurmurHash3 on a Weyl sequence (Steele, Lea
 * and Flood 2014). For simulation and resampling, not for secrets.
 */
export interface RandomSource {
  /** A number in [0, 1) with 53 random bits. */
  readonly uniform: () => number;
  /** A whole number from 0 to `below` - 1, each equally likely; `below` up to 2^32. */
  readonly integer: (below: number) => number;
}

/** The source of a whole-number seed from 0 to 2^53 - 1. */
export function randomSource(seed: number): RandomSource {
  if (!Number.isSafeInteger(seed) || seed < 0) {
    throw new RangeError(`seed is ${seed}; expected a whole number of 0 or more`);
  }
  return sourceOf(xoshiro128(stateFrom(seed)));
}

/** The next 32 random bits of a state of four 32-bit words, not all 0; changes the state. */
export function xoshiro128(state: Uint32Array): () => number {
  return () => {
    const [a, b, c, d] = state as unknown as [number, number, number, number];
    const result = Math.imul(rotated(Math.imul(b, 5), 7), 9) >>> 0;
    const mixed = c ^ a;
    const turned = d ^ b;
    state[0] = a ^ turned;
    state[1] = b ^ mixed;
    state[2] = mixed ^ (b << 9);
    state[3] = rotated(turned, 11);
    return result;
  };
}

function sourceOf(next: () => number): RandomSource {
  return {
    uniform: () => ((next() >>> 5) * 0x4000000 + (next() >>> 6)) / 0x20000000000000,
    integer: (below) => {
      if (!Number.isInteger(below) || below < 1 || below > 0x100000000) {
        throw new RangeError(`below is ${below}; expected a whole number from 1 to 2^32`);
      }
      // numbers past the last whole multiple of `below` would favour the small ones
      const most = 0x100000000 - (0x100000000 % below);
      let drawn = next();
      while (drawn >= most) drawn = next();
      return drawn % below;
    },
  };
}

function stateFrom(seed: number): Uint32Array {
  const low = seed >>> 0;
  const high = Math.floor(seed / 0x100000000);
  let weyl = low ^ Math.imul(high, 0x85ebca6b);
  return Uint32Array.from({ length: 4 }, () => {
    weyl = (weyl + 0x9e3779b9) | 0;
    let mixed = Math.imul(weyl ^ (weyl >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return mixed ^ (mixed >>> 16);
  });
}

function rotated(word: number, bits: number): number {
  return (word << bits) | (word >>> (32 - bits));
}
