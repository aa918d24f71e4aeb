/**
 * Nodes and weights of Gauss–Legendre quadrature, the rule of n points that is exact for
 * polynomials up to degree 2n - 1: the roots of the Legendre polynomial by Newton's method
 * (Abramowitz and Stegun 1964, 25.4.29, with the recurrence 22.7.10).
 */
export interface Quadrature {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/** The rule with `count` nodes between `from` and `to`, nodes ascending. */
export function gaussLegendre(count: number, from: number, to: number): Quadrature {
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  const half = (to - from) / 2;
  for (let i = 0; i < count; i++) {
    let x = -Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let step = 0; step < 100; step++) {
      const polynomial = legendre(count, x);
      slope = polynomial.slope;
      const move = polynomial.value / slope;
      x -= move;
      if (Math.abs(move) < 1e-15) break;
    }
    nodes[i] = from + half * (1 + x);
    weights[i] = (half * 2) / ((1 - x * x) * slope * slope);
  }
  return { nodes, weights };
}

function legendre(degree: number, x: number): { value: number; slope: number } {
  let before = 1;
  let value = x;
  for (let k = 2; k <= degree; k++) {
    [before, value] = [value, ((2 * k - 1) * x * value - (k - 1) * before) / k];
  }
  return { value, slope: (degree * (x * value - before)) / (x * x - 1) };
}
