/** Relative hazards and their sums by the compiled loops; what they are stands in `cox-risk-sums.ts`. */
import type { CoxData } from "../cox-data.ts";
import { copyRows, overTiles, type Rows, type RowTile, rowTile } from "./row-tile.ts";
import { copyColumns } from "./tiled-product.ts";

export interface TiledRisks {
  /** The weight times exp(x b) of each row. */
  readonly risk: Float64Array;
  /** By covariate and block, sums of risk times covariate over its events, and over all its rows. */
  readonly events: readonly Float64Array[];
  readonly everyone: readonly Float64Array[];
}

/** The sums at the coefficients; undefined where there is no kernel for so many covariates. */
export function tiledRisks(data: CoxData, coefficients: ArrayLike<number>): TiledRisks | undefined {
  const tile = rowTile(data.columns.length);
  if (tile === undefined) return undefined;
  tile.coefficients.set(coefficients);
  tile.offset.fill(0);
  const risk = new Float64Array(data.rows);
  const blockColumn = () => new Float64Array(data.deaths.length);
  const events = data.columns.map(blockColumn);
  const everyone = data.columns.map(blockColumn);
  // before the first step every coefficient is 0 and exp(0) need not be worked out
  const isNull = Array.prototype.every.call(coefficients, (value) => value === 0);
  let block = 0;
  overTiles(tile, data.rows, (rows, pairs) => {
    copyColumns(tile, data.columns, rows);
    copyRows(isNull ? tile.probability : tile.weight, data.weight, rows);
    if (!isNull) tile.kernel.riskRows(pairs);
    risk.set(tile.probability.subarray(0, rows.to - rows.from), rows.from);
    while (data.blockStart[block + 1]! <= rows.from) block++;
    const blocks = markRuns(tile.ends, data, { ...rows, block });
    tile.kernel.sumRuns(2 * blocks);
    addRuns(tile, { events, everyone }, { block, blocks });
  });
  return { risk, events, everyone };
}

/** Marks where each block's events and its other rows end in the tile; gives the number of blocks. */
function markRuns(
  ends: Int32Array,
  { blockStart, deaths }: CoxData,
  { from, to, block }: Rows & { readonly block: number },
): number {
  let blocks = 0;
  for (let b = block; b < deaths.length && blockStart[b]! < to; b++, blocks++) {
    const split = blockStart[b]! + deaths[b]!;
    ends[2 * blocks] = Math.max(0, Math.min(split, to) - from);
    ends[2 * blocks + 1] = Math.min(blockStart[b + 1]!, to) - from;
  }
  return blocks;
}

function addRuns(
  { runSums }: RowTile,
  { events, everyone }: Omit<TiledRisks, "risk">,
  { block, blocks }: { block: number; blocks: number },
): void {
  for (let c = 0; c < events.length; c++) {
    const failed = events[c]!;
    const all = everyone[c]!;
    for (let b = block, run = 2 * blocks * c; b < block + blocks; b++, run += 2) {
      const own = runSums[run]!;
      failed[b] = failed[b]! + own;
      all[b] = all[b]! + own + runSums[run + 1]!;
    }
  }
}
