/**
 * The test of proportional hazards: whether a coefficient changes with time.
 *
 * The score test for adding x g(t) to the model at its estimates. With s_k the Schoenfeld residual sums
 * and V_k the information at event time k, the score is sum g_k s_k and its information, net of the
 * estimated coefficients, sum g^2 V - (sum g V)(sum V)^-1 (sum g V); for one covariate on 1 degree, for
 * all together on as many as there are (Grambsch and Therneau 1994, with the exact information in
 * place of its average). g is the Kaplan–Meier transform 1 - S(t-), time itself, its logarithm or the
 * rank of the time among all rows.
 */
import { type CoxEvaluation, coxInformations } from "./cox-likelihood.ts";
import type { CoxFit } from "./cox-regression.ts";
import { requireEvaluation } from "./cox-residuals.ts";
import { chiSquareUpperTail } from "./distributions.ts";
import { tallyEvents } from "./event-tally.ts";
import { multiplied } from "./gather.ts";
import type { ChiSquare } from "./regression-table.ts";
import { cholesky, quadraticForm, solve } from "./symmetric-solve.ts";
import { indexTimes, positionAtOrBefore } from "./time-index.ts";
import { columnProducts } from "./weighted-product.ts";

export type TimeTransform = "Kaplan–Meier" | "identity" | "logarithm" | "rank";

export interface ProportionalHazardsTest {
  /** One test per covariate that has a coefficient, in the order of the model. */
  readonly covariates: readonly (ChiSquare & { readonly name: string })[];
  readonly global: ChiSquare;
  readonly transform: TimeTransform;
}

/** The test for a fit with Efron's or Breslow's ties. */
export function proportionalHazardsTest(
  fit: CoxFit,
  transform: TimeTransform = "Kaplan–Meier",
): ProportionalHazardsTest {
  const evaluation = requireEvaluation(fit);
  const g = centredTimes(fit, transform);
  const score = weightedScore(fit.data, evaluation, g);
  const variance = netInformation(fit, evaluation, g);
  const size = score.length;
  const used = fit.coefficients.filter(({ name }) => !fit.aliased.includes(name));
  const covariates = used.map(({ name }, j) => {
    const own = variance[j * size + j]!;
    return { name, ...test(own > 0 ? score[j]! ** 2 / own : 0, own > 0 ? 1 : 0) };
  });
  const { value, rank } = quadraticForm(variance, score);
  return { covariates, global: test(value, rank), transform };
}

function test(statistic: number, degreesOfFreedom: number): ChiSquare {
  const pValue = chiSquareUpperTail(statistic, degreesOfFreedom);
  return { statistic, degreesOfFreedom, pValue };
}

/** Sum over the event times of g times the events' covariates less their expectation, by covariate. */
function weightedScore(
  data: CoxFit["data"],
  { sums, terms }: CoxEvaluation,
  g: Float64Array,
): Float64Array {
  const { blockStart, deaths, weight } = data;
  const ofEvents = new Float64Array(data.rows);
  for (let b = 0; b < g.length; b++) {
    const start = blockStart[b]!;
    for (let i = start; i < start + deaths[b]!; i++) ofEvents[i] = g[b]! * weight[i]!;
  }
  return columnProducts(data.columns, ofEvents).map((observed, c) => {
    const [s1, t1] = [sums.s1[c]!, sums.t1[c]!];
    let expected = 0;
    for (let b = 0; b < g.length; b++) {
      expected += g[b]! * (terms.hazard[b]! * s1[b]! - terms.ownShare[b]! * t1[b]!);
    }
    return observed - expected;
  });
}

/** sum g^2 V less what the estimated coefficients take up. */
function netInformation(
  { data }: CoxFit,
  evaluation: CoxEvaluation,
  g: Float64Array,
): Float64Array {
  const size = data.columns.length;
  const plain = cholesky(evaluation.information, 1e-14);
  const [mixed, squared] = coxInformations(data, evaluation, [g, multiplied(g, g)]) as Two;
  const taken = Array.from({ length: size }, (_, j) =>
    solve(plain, mixed.subarray(j * size, (j + 1) * size)),
  );
  return squared.map((value, cell) => {
    const [row, column] = [Math.floor(cell / size), cell % size];
    let sum = 0;
    for (let k = 0; k < size; k++) sum += mixed[row * size + k]! * taken[column]![k]!;
    return value - sum;
  });
}

type Two = [Float64Array, Float64Array];

/** g at each block, centred over the events; centring changes nothing but rounding. */
function centredTimes({ data }: CoxFit, transform: TimeTransform): Float64Array {
  const g = transformed(data, transform);
  let sum = 0;
  let events = 0;
  for (let b = 0; b < g.length; b++) {
    sum += g[b]! * data.deaths[b]!;
    events += data.deaths[b]!;
  }
  return g.map((value) => value - sum / events);
}

function transformed(data: CoxFit["data"], transform: TimeTransform): Float64Array {
  if (transform === "identity") return data.time;
  if (transform === "logarithm") {
    if (data.time.some((time) => time === 0)) {
      throw new RangeError("an event is at time 0; expected a transform other than logarithm");
    }
    return data.time.map(Math.log);
  }
  if (transform !== "rank" && transform !== "Kaplan–Meier") {
    throw new RangeError(`transform is ${String(transform)}; expected a TimeTransform`);
  }
  return transform === "rank" ? ranks(data) : kaplanMeierTransform(data);
}

/** The average rank of each event time among the times of all rows, censored ones included. */
function ranks(data: CoxFit["data"]): Float64Array {
  const { times, position } = indexTimes(data.followUp.time);
  const counts = new Float64Array(times.length);
  for (const p of position) counts[p] = counts[p]! + 1;
  const through = Float64Array.from(counts);
  for (let p = 1; p < through.length; p++) through[p] = through[p]! + through[p - 1]!;
  return data.time.map((time) => {
    const p = positionAtOrBefore({ times, tolerance: time * 1e-9 }, time);
    return through[p]! - (counts[p]! - 1) / 2;
  });
}

/** 1 - S(t-) with the Kaplan–Meier estimate of all rows, without strata or weights. */
function kaplanMeierTransform(data: CoxFit["data"]): Float64Array {
  const { time, atRisk, events } = tallyEvents(data.followUp);
  const before = new Float64Array(time.length);
  let survival = 1;
  for (let j = 0; j < time.length; j++) {
    before[j] = survival;
    survival *= 1 - events[j]! / atRisk[j]!;
  }
  return data.time.map((at) => {
    const step = positionAtOrBefore({ times: time, tolerance: at * 1e-9 }, at);
    return 1 - before[step]!;
  });
}
