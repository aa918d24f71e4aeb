/**
 * The variance of a cumulative incidence, by two estimators in use.
 *
 * The estimate F(t) moves with the hazard of its own cause at u by S(u-) - g / (1 - h) and with any
 * other cause's by -g / (1 - h), where g = F(t) - F(u) and h = d / n is the hazard of all causes at u.
 *   "delta": events at u are multinomial among those at risk, so that
 *      var F(t) = sum over u of [h / (1 - h) g^2 - 2 p s g + p (1 - p) s^2] / n,   p = d_k / n, s = S(u-)
 *      (Dinse and Larson 1986; Braun and Yuan 2007). With a single cause it is Greenwood's.
 *   "Gray": each cause is a counting process of its own, d_j / n^2 (1 - (d_j - 1) / (n - 1)),
 *      (Aalen 1978; Gray 1988); somewhat larger at small numbers.
 * Both are quadratics in F(t) whose coefficients are running sums, so the work is linear.
 *
 * With 95% log-log limits the true incidence is held in 93 to 99% of samples by the delta method
 * and in 95 to 99% by Gray's variance (counted in the tables of real coverage among the tests).
 */
export type IncidenceVariance = "delta" | "Gray";

/** Counts of one cause and of all, with overall survival just after each time. */
export interface IncidenceSteps {
  readonly atRisk: Float64Array;
  readonly allEvents: Float64Array;
  readonly events: Float64Array;
  readonly survival: Float64Array;
}

export interface IncidenceCurve extends IncidenceSteps {
  readonly incidence: Float64Array;
}

/** The variance at each time, by the estimator asked for. */
export function incidenceVariance(curve: IncidenceCurve, kind: IncidenceVariance): Float64Array {
  if (kind !== "delta" && kind !== "Gray") {
    throw new RangeError(`variance is ${String(kind)}; expected delta or Gray`);
  }
  const add = kind === "delta" ? addDelta : addGray;
  const sums: Quadratic = { square: 0, linear: 0, constant: 0 };
  const variance = new Float64Array(curve.incidence.length);
  for (let j = 0; j < variance.length; j++) {
    const incidence = curve.incidence[j]!;
    if (curve.allEvents[j]! > 0) add(sums, curve, j);
    const value = (sums.square * incidence + sums.linear) * incidence + sums.constant;
    variance[j] = Math.max(0, value);
  }
  return variance;
}

interface Quadratic {
  square: number;
  linear: number;
  constant: number;
}

function addDelta(sums: Quadratic, curve: IncidenceCurve, j: number): void {
  const n = curve.atRisk[j]!;
  const hazard = curve.allEvents[j]! / n;
  const share = curve.events[j]! / n;
  const before = j === 0 ? 1 : curve.survival[j - 1]!;
  const reached = curve.incidence[j]!;
  // once S is 0 the incidence stays where it is and g is 0 for ever after
  const spread = curve.survival[j] === 0 ? 0 : hazard / (1 - hazard) / n;
  addSquare(sums, spread, reached);
  sums.linear -= (2 * share * before) / n;
  sums.constant += (2 * share * before * reached + share * (1 - share) * before * before) / n;
}

function addGray(sums: Quadratic, curve: IncidenceCurve, j: number): void {
  const own = curve.events[j]!;
  const before = j === 0 ? 1 : curve.survival[j - 1]!;
  const survival = curve.survival[j]!;
  const slope = survival === 0 ? 0 : 1 / survival;
  const spreadOf = (d: number) => processVariance(d, curve.atRisk[j]!) * before * before;
  const spread = spreadOf(own);
  // (1 - (F - reached) / S)^2 for the cause itself, ((F - reached) / S)^2 for the others
  const level = 1 + slope * curve.incidence[j]!;
  sums.square += spread * slope * slope;
  sums.linear -= 2 * spread * slope * level;
  sums.constant += spread * level * level;
  addSquare(sums, spreadOf(curve.allEvents[j]! - own) * slope * slope, curve.incidence[j]!);
}

/** Adds factor * (F - reached)^2. */
function addSquare(sums: Quadratic, factor: number, reached: number): void {
  sums.square += factor;
  sums.linear -= 2 * factor * reached;
  sums.constant += factor * reached * reached;
}

/** d / n^2, lowered for ties as sampling without replacement would. */
function processVariance(d: number, n: number): number {
  if (d <= 0) return 0;
  return (d > 1 ? 1 - (d - 1) / (n - 1) : 1) * (d / (n * n));
}
