/**
 * A generator of random numbers from a seed, and the one door to the library that has it: the same
 * seed gives the same numbers on every machine.
 *
 * The Mersenne Twister MT19937 (Matsumoto and Nishimura, ACM Transactions on Modeling and Computer
 * Simulation 1998;8:3), initialised by its authors' init_genrand. Numbers between 0 and 1 have 53
 * bits, from two outputs, by the authors' genrand_res53.
 */
import { mersenne } from "pure-rand/generator/mersenne";

export interface RandomSource {
  /** The next 32 bits as a whole number from 0 to 2^32 - 1. */
  readonly bits: () => number;
  /** A number from 0 to below 1. */
  readonly uniform: () => number;
  /** A whole number from 0 to below `count`, each as likely as the other. */
  readonly below: (count: number) => number;
}

const TWO_32 = 2 ** 32;

/** The generator for a seed, a whole number from 0 to 2^32 - 1. */
export function seededRandom(seed: number): RandomSource {
  if (!(Number.isInteger(seed) && seed >= 0 && seed < TWO_32)) {
    throw new RangeError(`the seed is ${seed}; expected a whole number from 0 to ${TWO_32 - 1}`);
  }
  const generator = mersenne(seed);
  const bits = () => generator.next() >>> 0;
  return {
    bits,
    uniform: () => ((bits() >>> 5) * 2 ** 26 + (bits() >>> 6)) / 2 ** 53,
    below: (count) => {
      // outputs past the last whole multiple of the count would favour small numbers
      const most = TWO_32 - (TWO_32 % count);
      let value = bits();
      while (value >= most) value = bits();
      return value % count;
    },
  };
}

/** Puts values into random order, in place (Fisher and Yates 1938; Durstenfeld 1964). */
export function shuffle<T>(values: T[], random: RandomSource): void {
  for (let last = values.length - 1; last > 0; last--) {
    const other = random.below(last + 1);
    [values[last], values[other]] = [values[other]!, values[last]!];
  }
}
