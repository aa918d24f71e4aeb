/** Products with a matrix by the compiled loops; what they are stands in `weighted-product.ts`. */
import { copyRows, overTiles, type Rows, type RowTile, rowTile } from "./row-tile.ts";

/** Of each column of weights the upper triangle of X' diag(w) X; undefined where there is no kernel. */
export function tiledProducts(
  columns: readonly Float64Array[],
  weights: readonly Float64Array[],
): Float64Array[] | undefined {
  const tile = rowTile(columns.length);
  if (tile === undefined) return undefined;
  const products = weights.map(() => new Float64Array(tile.product.length));
  overTiles(tile, columns[0]!.length, (rows, pairs) => {
    copyColumns(tile, columns, rows);
    for (let k = 0; k < products.length; k++) {
      const product = products[k]!;
      copyRows(tile.weight, weights[k]!, rows);
      tile.product.set(product);
      tile.kernel.addWeightedProduct(pairs, tile.kernel.weight.value);
      product.set(tile.product);
    }
  });
  return products;
}

/** Rows of each column, copied into the tile. */
export function copyColumns(tile: RowTile, columns: readonly Float64Array[], rows: Rows): void {
  for (let c = 0; c < columns.length; c++) copyRows(tile.columns[c]!, columns[c]!, rows);
}
