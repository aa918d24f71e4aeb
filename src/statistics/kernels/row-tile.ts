/**
 * The compiled inner loops of the regressions, and the memory through which rows pass to them.
 *
 * The loops are written in AssemblyScript (`assembly/`), two rows at a time, and lie in
 * `kernel-bytes.ts` as WebAssembly. The memory is of a fixed size: rows are copied into it tile by tile, three
 * thousand at a time, so that nothing of a fit stays behind and no size of file can exhaust it. Engines
 * compute the same digits. Where WebAssembly is absent or refused, the plain loops beside each use answer.
 */
import { kernelBytes } from "./kernel-bytes.ts";

/** One area of each kind, a number for each row of the tile, and what the loops fill in. */
export interface RowTile {
  /** The most rows at a time, an even number. */
  readonly rows: number;
  readonly columns: readonly Float64Array[];
  readonly weight: Float64Array;
  readonly offset: Float64Array;
  readonly outcome: Float64Array;
  readonly probability: Float64Array;
  readonly variance: Float64Array;
  readonly residual: Float64Array;
  readonly coefficients: Float64Array;
  readonly sums: Float64Array;
  readonly product: Float64Array;
  /** Ends of runs of rows within the tile, and the sums over them, column by column. */
  readonly ends: Int32Array;
  readonly runSums: Float64Array;
  readonly kernel: Kernel;
}

type Address =
  | "coefficients"
  | "ends"
  | "offset"
  | "outcome"
  | "probability"
  | "product"
  | "residual"
  | "runSums"
  | "sums"
  | "variance"
  | "weight";

/** What the compiled module exports; what each function does stands with its source. */
export interface Kernel extends Readonly<Record<Address, WebAssembly.Global>> {
  readonly memory: WebAssembly.Memory;
  readonly arrange: (columns: number) => number;
  readonly columnAt: (position: number) => number;
  readonly logisticRows: (rows: number) => number;
  readonly riskRows: (rows: number) => void;
  readonly sumRuns: (runs: number) => void;
  readonly addColumnProducts: (rows: number) => void;
  readonly addWeightedProduct: (rows: number, weights: number) => void;
}

/** With fewer rows at a time, as with hundreds of columns, copying takes more than it gains. */
const FEWEST_ROWS = 64;

const kernel = instance();
const tiles = new Map<number, RowTile>();

/**
 * The memory arranged for so many columns, all of it to be filled again: any other use has overwritten it.
 * Undefined where there is no kernel, no column or no room.
 */
export function rowTile(columns: number): RowTile | undefined {
  if (kernel === undefined || columns === 0) return undefined;
  const rows = kernel.arrange(columns);
  if (rows < FEWEST_ROWS) return undefined;
  const tile = tiles.get(columns) ?? tileOf(kernel, columns, rows);
  tiles.set(columns, tile);
  return tile;
}

/** Rows of a column from `from` up to `to`, copied into an area; one more is 0 where they are odd. */
export function copyRows(area: Float64Array, values: Float64Array, rows: Rows): void {
  const { from, to } = rows;
  area.set(from === 0 && to === values.length ? values : values.subarray(from, to));
  if ((to - from) % 2 === 1) area[to - from] = 0;
}

export interface Rows {
  readonly from: number;
  readonly to: number;
}

/** Runs over the rows, as many at a time as the tile holds; `pairs` is their number, made even. */
export function overTiles(
  tile: RowTile,
  length: number,
  each: (rows: Rows, pairs: number) => void,
): void {
  for (let from = 0; from < length; from += tile.rows) {
    const to = Math.min(from + tile.rows, length);
    each({ from, to }, to - from + ((to - from) % 2));
  }
}

function tileOf(found: Kernel, size: number, rows: number): RowTile {
  const { buffer } = found.memory;
  const doubles = (address: number, length: number) => new Float64Array(buffer, address, length);
  const area = (name: Address, length = rows) => doubles(found[name].value, length);
  return {
    rows,
    columns: Array.from({ length: size }, (_, c) => doubles(found.columnAt(c), rows)),
    weight: area("weight"),
    offset: area("offset"),
    outcome: area("outcome"),
    probability: area("probability"),
    variance: area("variance"),
    residual: area("residual"),
    coefficients: area("coefficients", size),
    sums: area("sums", size),
    product: area("product", size * size),
    ends: new Int32Array(buffer, found.ends.value, 2 * rows),
    runSums: area("runSums", 2 * rows * size),
    kernel: found,
  };
}

/** The module, compiled at once: it is a few thousand bytes. Undefined where that is not allowed. */
function instance(): Kernel | undefined {
  if (typeof WebAssembly === "undefined") return undefined;
  try {
    const bytes = Uint8Array.from(atob(kernelBytes), (letter) => letter.charCodeAt(0));
    const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes));
    return exports as unknown as Kernel;
  } catch {
    // a page's policy may refuse to compile, an old engine may not know the instructions
    return undefined;
  }
}
