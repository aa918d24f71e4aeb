/** The logistic likelihood by the compiled loops; what it is stands in `logistic-likelihood.ts`. */
import type { LogisticData } from "../logistic-data.ts";
import { copyRows, overTiles, type Rows, type RowTile, rowTile } from "./row-tile.ts";
import { copyColumns } from "./tiled-product.ts";

export interface TiledLogistic {
  readonly logLikelihood: number;
  readonly score: Float64Array;
  /** Its upper triangle alone. */
  readonly information: Float64Array;
  readonly probabilities: Float64Array;
  readonly variances: Float64Array;
}

/** The likelihood at the coefficients; undefined where there is no kernel for so many columns. */
export function tiledLogistic(
  data: LogisticData,
  coefficients: ArrayLike<number>,
): TiledLogistic | undefined {
  const tile = rowTile(data.columns.length);
  if (tile === undefined) return undefined;
  tile.product.fill(0);
  tile.sums.fill(0);
  tile.coefficients.set(coefficients);
  const probabilities = new Float64Array(data.rows);
  const variances = new Float64Array(data.rows);
  let logLikelihood = 0;
  overTiles(tile, data.rows, (rows, pairs) => {
    copyData(tile, data, rows);
    logLikelihood += tile.kernel.logisticRows(pairs);
    const length = rows.to - rows.from;
    probabilities.set(tile.probability.subarray(0, length), rows.from);
    variances.set(tile.variance.subarray(0, length), rows.from);
    tile.kernel.addColumnProducts(pairs);
    tile.kernel.addWeightedProduct(pairs, tile.kernel.variance.value);
  });
  const [score, information] = [tile.sums.slice(), tile.product.slice()];
  return { logLikelihood, score, information, probabilities, variances };
}

function copyData(tile: RowTile, data: LogisticData, rows: Rows): void {
  copyColumns(tile, data.columns, rows);
  copyRows(tile.weight, data.weight, rows);
  copyRows(tile.offset, data.offset, rows);
  copyRows(tile.outcome, data.outcome, rows);
}
