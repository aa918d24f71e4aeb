/**
 * The logarithm of the gamma function, and Stirling's error.
 *
 * Stirling's series with seven terms from 15 up; below, the argument is moved up by the
 * recurrence gamma(x + 1) = x gamma(x). Source: Abramowitz and Stegun 1964, 6.1.40 and 6.1.15;
 * Stirling's error as in Loader 2000, "Fast and accurate computation of binomial probabilities".
 */
const HALF_LOG_TWO_PI = 0.9189385332046728;
const SERIES_FROM = 15;

/** ln gamma(x) for x > 0; relative error about 1e-15, absolute near the zeros at 1 and 2. */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`x is ${x}; expected a number above 0`);
  if (x === 1 || x === 2) return 0;
  let shifted = x;
  let product = 1;
  while (shifted < SERIES_FROM) {
    product *= shifted;
    shifted += 1;
  }
  const main = (shifted - 0.5) * Math.log(shifted) - shifted + HALF_LOG_TWO_PI;
  return main + stirlingSeries(shifted) - Math.log(product);
}

/** ln n! for n >= 0. */
export function logFactorial(n: number): number {
  return logGamma(n + 1);
}

/** ln of the number of ways to choose k of n. */
export function logChoose(n: number, k: number): number {
  return logFactorial(n) - logFactorial(k) - logFactorial(n - k);
}

/** ln gamma(x + 1) - [(x + 1/2) ln x - x + ln(2 pi) / 2], what Stirling's formula leaves out. */
export function stirlingError(x: number): number {
  if (x >= SERIES_FROM) return stirlingSeries(x);
  return logGamma(x + 1) - ((x + 0.5) * Math.log(x) - x + HALF_LOG_TWO_PI);
}

function stirlingSeries(x: number): number {
  const y = 1 / (x * x);
  const tail = 1 / 1188 - y * (691 / 360360 - y / 156);
  return (1 / 12 - y * (1 / 360 - y * (1 / 1260 - y * (1 / 1680 - y * tail)))) / x;
}
