/** Products with a matrix by the compiled loops; what they are stands in `weighted-product.ts`. */
import { copyRows, overTiles, type Rows, type RowTile, rowTile } from "./row-tile.ts";

/** The upper triangle of X' diag(w) X, row by row; undefined where there is no kernel for the size. */
export function tiledProduct(
  columns: readonly Float64Array[],
  weights: Float64Array,
): Float64Array | undefined {
  const tile = rowTile(columns.length);
  if (tile === undefined) return undefined;
  tile.product.fill(0);
  overTiles(tile, weights.length, (rows, pairs) => {
    copyColumns(tile, columns, rows);
    copyRows(tile.weight, weights, rows);
    tile.kernel.addWeightedProduct(pairs);
  });
  return tile.product.slice();
}

/** Rows of each column, copied into the tile. */
export function copyColumns(tile: RowTile, columns: readonly Float64Array[], rows: Rows): void {
  for (let c = 0; c < columns.length; c++) copyRows(tile.columns[c]!, columns[c]!, rows);
}
