/**
 * Where things lie in the kernel's memory, which is fixed: so many areas, each of one number for each
 * row of a tile, then the results. A caller arranges the memory for its number of columns, fills areas,
 * and runs a kernel over the rows of the tile. Rows go in pairs: where they are odd the caller adds a row
 * of zeros.
 */

/**
 * The most rows of a tile: enough that passing them costs little, so few that they stay near the processor. Not
 * a multiple of 512, at which the columns would lie a whole number of 4096 bytes apart and so share the same few
 * places of its nearest cache.
 */
const MOST_ROWS: i32 = 2976;
const BYTES: i32 = 8;
/** Areas beside the columns, and doubles in all. */
const AREAS: i32 = 9;
const CAPACITY: i32 = 32 * 65536 / 8 - 1024;

export let size: i32 = 0;
/** Bytes from one area to the next. */
export let stride: usize = 0;
export let weight: usize = 0;
export let offset: usize = 0;
export let outcome: usize = 0;
export let probability: usize = 0;
export let variance: usize = 0;
export let residual: usize = 0;
export let scaled: usize = 0;
export let coefficients: usize = 0;
export let sums: usize = 0;
export let product: usize = 0;
/** Ends of runs of rows (whole numbers of 32 bits), and the sums over them, run by run. */
export let ends: usize = 0;
export let runSums: usize = 0;

/** Lays the memory out for so many columns; gives the rows of a tile, under 64 where there is no room. */
export function arrange(columns: i32): i32 {
  const ownCells = columns * columns + 2 * columns + 8;
  // a row takes its areas, and of two runs the end and the sum of each column
  const rows = min(MOST_ROWS, ((CAPACITY - ownCells) / (3 * columns + AREAS + 2) - 2) & ~1);
  size = columns;
  stride = rows * BYTES;
  weight = columnAt(columns);
  offset = columnAt(columns + 1);
  outcome = columnAt(columns + 2);
  probability = columnAt(columns + 3);
  variance = columnAt(columns + 4);
  residual = columnAt(columns + 5);
  scaled = columnAt(columns + 6);
  coefficients = columnAt(columns + AREAS);
  sums = coefficients + columns * BYTES;
  product = sums + columns * BYTES;
  ends = product + columns * columns * BYTES;
  runSums = ends + (rows + 2) * BYTES;
  return rows;
}

/** The address of an area; the columns are the first. */
export function columnAt(position: i32): usize {
  return 1024 + <usize>position * stride;
}
