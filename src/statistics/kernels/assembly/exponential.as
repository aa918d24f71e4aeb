/**
 * exp and log of two numbers at once, each to within one unit in the last place or so.
 *
 * exp: x = k ln 2 + r with |r| <= ln 2 / 2, exp(r) = 1 + r + r c / (2 - c) with c the start of a continued
 * fraction, r - r^2 P(r^2), and the rest is a power of two. log: x = 2^k (1 + f) with 1 + f between the
 * root of 1/2 and of 2, s = f / (2 + f), and log(1 + f) = f - f^2 / 2 + s (f^2 / 2 + R(s^2)). The
 * polynomials are those of Sun Microsystems' freely distributable mathematics library (1993), which also
 * the engines of browsers use.
 */
const LN2_HIGH: f64 = 6.93147180369123816490e-1;
const LN2_LOW: f64 = 1.90821492927058770002e-10;

/** exp of both numbers; 0 below some -745, infinite above some 709. */
export function exponential(given: v128): v128 {
  const x = f64x2.max(f64x2.min(given, f64x2.splat(720)), f64x2.splat(-760));
  const k = f64x2.nearest(f64x2.mul(x, f64x2.splat(1.44269504088896338700)));
  const high = f64x2.sub(x, f64x2.mul(k, f64x2.splat(LN2_HIGH)));
  const low = f64x2.mul(k, f64x2.splat(LN2_LOW));
  const r = f64x2.sub(high, low);
  const t = f64x2.mul(r, r);
  let p = f64x2.splat(4.13813679705723846039e-8);
  p = f64x2.add(f64x2.mul(p, t), f64x2.splat(-1.65339022054652515390e-6));
  p = f64x2.add(f64x2.mul(p, t), f64x2.splat(6.61375632143793436117e-5));
  p = f64x2.add(f64x2.mul(p, t), f64x2.splat(-2.77777777770155933842e-3));
  p = f64x2.add(f64x2.mul(p, t), f64x2.splat(1.66666666666666019037e-1));
  const c = f64x2.sub(r, f64x2.mul(p, t));
  const quotient = f64x2.div(f64x2.mul(r, c), f64x2.sub(f64x2.splat(2), c));
  const y = f64x2.sub(f64x2.splat(1), f64x2.sub(f64x2.sub(low, quotient), high));
  const whole = i64x2.extend_low_i32x4_s(i32x4.trunc_sat_f64x2_s_zero(k));
  const half = i64x2.shr_s(whole, 1);
  return f64x2.mul(f64x2.mul(y, powerOfTwo(half)), powerOfTwo(i64x2.sub(whole, half)));
}

function powerOfTwo(exponent: v128): v128 {
  return i64x2.shl(i64x2.add(exponent, i64x2.splat(1023)), 52);
}

/** The logarithm of both numbers, which are finite, normal and above 0. */
export function logarithm(x: v128): v128 {
  // the exponent, counted so that the fraction lies about 1, between the root of 1/2 and that of 2
  const shifted = i64x2.add(x, i64x2.splat(0x3ff0000000000000 - 0x3fe6a09e00000000));
  const exponent = i64x2.sub(i64x2.shr_u(shifted, 52), i64x2.splat(0x3ff));
  const fraction = i64x2.sub(x, i64x2.shl(exponent, 52));
  const k = f64x2.convert_low_i32x4_s(i32x4.shuffle(exponent, exponent, 0, 2, 0, 2));
  const f = f64x2.sub(fraction, f64x2.splat(1));
  const s = f64x2.div(f, f64x2.add(f64x2.splat(2), f));
  const z = f64x2.mul(s, s);
  const w = f64x2.mul(z, z);
  let even = f64x2.splat(1.531383769920937332e-1);
  even = f64x2.add(f64x2.mul(even, w), f64x2.splat(2.222219843214978396e-1));
  even = f64x2.add(f64x2.mul(even, w), f64x2.splat(3.999999999940941908e-1));
  let odd = f64x2.splat(1.479819860511658591e-1);
  odd = f64x2.add(f64x2.mul(odd, w), f64x2.splat(1.818357216161805012e-1));
  odd = f64x2.add(f64x2.mul(odd, w), f64x2.splat(2.857142874366239149e-1));
  odd = f64x2.add(f64x2.mul(odd, w), f64x2.splat(6.666666666666735130e-1));
  const rest = f64x2.add(f64x2.mul(even, w), f64x2.mul(odd, z));
  const square = f64x2.mul(f64x2.splat(0.5), f64x2.mul(f, f));
  const low = f64x2.mul(k, f64x2.splat(LN2_LOW));
  const correction = f64x2.add(f64x2.mul(s, f64x2.add(square, rest)), low);
  const high = f64x2.mul(k, f64x2.splat(LN2_HIGH));
  return f64x2.sub(high, f64x2.sub(f64x2.sub(square, correction), f));
}
