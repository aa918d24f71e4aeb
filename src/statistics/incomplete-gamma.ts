/**
 * The regularised incomplete gamma functions P(a, x) and Q(a, x) = 1 - P(a, x), and the
 * quantile of the gamma distribution.
 *
 * Below x = a + 1 the power series gives P, above it Legendre's continued fraction gives Q
 * (Abramowitz and Stegun 1964, 6.5.29 and 6.5.31); each tail is the one computed where it is the
 * small one. The common factor x^a e^-x / gamma(a + 1) is evaluated at the saddle point (Loader
 * 2000), which keeps full precision at shapes of many thousands.
 */
import { findRoot } from "./find-root.ts";
import { logGamma, stirlingError } from "./log-gamma.ts";

const EPSILON = 1e-17;
const TINY = 1e-300;

/** P(a, x), the probability that a gamma variable of shape a > 0 and scale 1 is at most x. */
export function gammaLowerTail(shape: number, x: number): number {
  requireShape(shape, x);
  if (x === 0) return 0;
  if (x === Infinity) return 1;
  return x < shape + 1 ? lowerSeries(shape, x) : 1 - upperFraction(shape, x);
}

/** Q(a, x), the probability that a gamma variable of shape a > 0 and scale 1 is above x. */
export function gammaUpperTail(shape: number, x: number): number {
  requireShape(shape, x);
  if (x === 0) return 1;
  if (x === Infinity) return 0;
  return x < shape + 1 ? 1 - lowerSeries(shape, x) : upperFraction(shape, x);
}

/** The x with P(a, x) = `p`, or with Q(a, x) = `p` when `tail` is "upper". */
export function gammaQuantile(p: number, shape: number, tail: "lower" | "upper" = "lower"): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`p is ${p}; expected a probability`);
  if (p === 0 || p === 1) return (p === 0) === (tail === "lower") ? 0 : Infinity;
  const tailAt = tail === "lower" ? gammaLowerTail : gammaUpperTail;
  const target = Math.log(p);
  const excess = (logX: number) => logOf(tailAt(shape, Math.exp(logX))) - target;
  // P(a, x) is at most x^a / gamma(a + 1), so the quantile lies above where that is p
  const lowerTail = tail === "lower" ? p : 1 - p;
  const from = (Math.log(Math.max(lowerTail, 1e-300)) + logGamma(shape + 1)) / shape - 1e-9;
  const to = Math.log(shape) + 10 / Math.sqrt(shape) + 7;
  return Math.exp(findRoot(excess, { from, to: Math.max(to, from + 1) }));
}

/** x^a e^-x / gamma(a + 1), the Poisson probability of a (not only whole a) at mean x. */
export function poissonDensity(a: number, x: number): number {
  if (x === 0) return a === 0 ? 1 : 0;
  if (a === 0) return Math.exp(-x);
  return Math.exp(-stirlingError(a) - deviance(a, x)) / Math.sqrt(2 * Math.PI * a);
}

/** a ln(a / x) + x - a without cancellation when a is near x. */
function deviance(a: number, x: number): number {
  if (Math.abs(a - x) > 0.1 * (a + x)) return a * Math.log(a / x) + x - a;
  const ratio = (a - x) / (a + x);
  let sum = (a - x) * ratio;
  let term = 2 * a * ratio;
  for (let j = 1; j < 1000; j++) {
    term *= ratio * ratio;
    const next = sum + term / (2 * j + 1);
    if (next === sum) break;
    sum = next;
  }
  return sum;
}

function lowerSeries(shape: number, x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; term > EPSILON * sum; k++) {
    term *= x / (shape + k);
    sum += term;
  }
  return Math.min(1, poissonDensity(shape, x) * sum);
}

/** Legendre's continued fraction by the modified Lentz method. */
function upperFraction(shape: number, x: number): number {
  let b = x + 1 - shape;
  let c = 1 / TINY;
  let d = 1 / b;
  let fraction = d;
  for (let k = 1; k < 100_000; k++) {
    const numerator = -k * (k - shape);
    b += 2;
    d = 1 / awayFromZero(numerator * d + b);
    c = awayFromZero(b + numerator / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return poissonDensity(shape, x) * shape * fraction;
}

function awayFromZero(value: number): number {
  return Math.abs(value) < TINY ? TINY : value;
}

function logOf(probability: number): number {
  return probability > 0 ? Math.log(probability) : -1e6;
}

function requireShape(shape: number, x: number): void {
  if (!(shape > 0)) throw new RangeError(`shape is ${shape}; expected a number above 0`);
  if (!(x >= 0)) throw new RangeError(`x is ${x}; expected a number of 0 or more`);
}
