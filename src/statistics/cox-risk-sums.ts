/**
 * Relative hazards r_i = w_i exp(x_i b) and, at each event time, their sums and those of r x over the risk
 * set and over the deaths.
 *
 * Each block's rows are summed, then the blocks of a stratum from the last back, and those who entered
 * late are taken out of the risk sets before. The sums over rows are by compiled loops where there are any
 * (`kernels/`), else by plain ones.
 */
import type { CoxData } from "./cox-data.ts";
import { multiplied } from "./gather.ts";
import { type TiledRisks, tiledRisks } from "./kernels/tiled-risk-sums.ts";
import { linearPredictor } from "./weighted-product.ts";

/** Sums over risk sets (s) and deaths (t) at each block; s1[c], t1[c] per covariate. */
export interface RiskSums {
  readonly s0: Float64Array;
  readonly t0: Float64Array;
  readonly s1: readonly Float64Array[];
  readonly t1: readonly Float64Array[];
}

/** The relative hazard of each row, w exp(x b) with centred x, and the sums. */
export function riskSums(
  data: CoxData,
  coefficients: ArrayLike<number>,
): { risk: Float64Array; sums: RiskSums } {
  const { risk, events, everyone } =
    tiledRisks(data, coefficients) ?? plainRisks(data, coefficients);
  everyone.forEach((sums, c) => {
    sumRiskSets(data, sums, () => multiplied(risk, data.columns[c]!));
  });
  const alone = rowSums(data, risk);
  sumRiskSets(data, alone.everyone, () => risk);
  return { risk, sums: { s0: alone.everyone, t0: alone.events, s1: everyone, t1: events } };
}

/** The relative hazards and the sums over each block without the compiled loops. */
export function plainRisks(data: CoxData, coefficients: ArrayLike<number>): TiledRisks {
  const risk = linearPredictor(data.columns, coefficients, data.rows);
  for (let i = 0; i < data.rows; i++) risk[i] = data.weight[i]! * Math.exp(risk[i]!);
  const each = data.columns.map((column) => rowSums(data, multiplied(risk, column)));
  return {
    risk,
    events: each.map(({ events }) => events),
    everyone: each.map(({ everyone }) => everyone),
  };
}

/** Sums of risk times a column over each block's events, and over its risk set. */
export function blockSums(data: CoxData, risk: Float64Array, column: Float64Array) {
  const values = multiplied(risk, column);
  const sums = rowSums(data, values);
  sumRiskSets(data, sums.everyone, () => values);
  return sums;
}

/** Sums over each block's events and over all its rows. */
function rowSums({ blockStart, deaths }: CoxData, values: Float64Array) {
  const events = new Float64Array(deaths.length);
  const everyone = new Float64Array(deaths.length);
  for (let b = 0; b < deaths.length; b++) {
    const split = blockStart[b]! + deaths[b]!;
    const end = blockStart[b + 1]!;
    let failed = 0;
    let others = 0;
    for (let i = blockStart[b]!; i < split; i++) failed += values[i]!;
    for (let i = split; i < end; i++) others += values[i]!;
    events[b] = failed;
    everyone[b] = failed + others;
  }
  return { events, everyone };
}

/** Turns sums over blocks into sums over risk sets, in place; `values` are those of rows. */
function sumRiskSets(data: CoxData, sums: Float64Array, values: () => Float64Array): void {
  addLaterBlocks(data, sums);
  if (data.isDelayed) subtractEntering(data, sums, values());
}

function addLaterBlocks({ firstBlock }: CoxData, sums: Float64Array): void {
  for (let b = sums.length - 2; b >= 0; b--) {
    if (firstBlock[b + 1] !== b + 1) sums[b] = sums[b]! + sums[b + 1]!;
  }
}

/** Takes those who enter late out of the risk sets before. */
function subtractEntering(data: CoxData, sums: Float64Array, values: Float64Array): void {
  const { entryBlock, firstBlock, lastBlock } = data;
  const entering = new Float64Array(sums.length);
  for (let i = 0; i < values.length; i++) {
    const entry = entryBlock[i]!;
    if (entry >= firstBlock[lastBlock[i]!]!) entering[entry] = entering[entry]! + values[i]!;
  }
  addLaterBlocks(data, entering);
  for (let b = 0; b < sums.length; b++) sums[b] = sums[b]! - entering[b]!;
}
