/**
 * Follow-up and covariates arranged for the partial likelihood.
 *
 * A block is a distinct event time within a stratum. A row is at risk at the blocks after its
 * `entryBlock` up to its `lastBlock`, so every sum over a risk set is a running sum over blocks.
 * Rows that are at risk at no event are left out: they have no part in the likelihood. Covariates
 * are centred, which changes no coefficient. Rows are in the order of their last block, and within a
 * block those with the event come first, so that sums over events and risk sets are over runs of rows.
 */
import { readEvent, requireNumbers, requireSameLength } from "./argument-checks.ts";
import { readWeight } from "./event-tally.ts";
import { gather, gatherWhole, multiplied } from "./gather.ts";
import { codeGroups, type GroupLabel, rowsByCode } from "./group-codes.ts";
import { indexTimes, positionAtOrBefore } from "./time-index.ts";
import { columnProducts } from "./weighted-product.ts";

export type CoxTies = "Efron" | "Breslow" | "exact";

export interface CoxInput {
  readonly time: ArrayLike<number>;
  readonly event: ArrayLike<number | boolean>;
  /** One column of numbers per covariate. */
  readonly covariates: readonly ArrayLike<number>[];
  /** The covariates' names; x1, x2, ... unless given. */
  readonly names?: readonly string[];
  readonly entry?: ArrayLike<number>;
  readonly weight?: ArrayLike<number>;
  readonly strata?: ArrayLike<GroupLabel>;
}

export interface CoxData {
  /** Rows that are at risk at some event. */
  readonly rows: number;
  /** Rows given, and weighted events among them. */
  readonly total: number;
  readonly events: number;
  /** For each kept row its number among the rows given. */
  readonly order: Int32Array;
  /** Centred covariates, one column each, in the order of kept rows. */
  readonly columns: readonly Float64Array[];
  readonly means: Float64Array;
  /** Of each centred covariate the weighted sum over the rows with the event. */
  readonly eventSums: Float64Array;
  readonly weight: Float64Array;
  readonly isEvent: Uint8Array;
  readonly lastBlock: Int32Array;
  /** The last block before the row came under observation; one less than its stratum's first. */
  readonly entryBlock: Int32Array;
  /** Where each block's rows start; the events of block b are its first `deaths[b]` rows. */
  readonly blockStart: Int32Array;
  /** Whether any row came under observation late. */
  readonly isDelayed: boolean;
  /** Per block: its time, its stratum, its stratum's first block, its events, their weight. */
  readonly time: Float64Array;
  readonly stratum: Int32Array;
  readonly firstBlock: Int32Array;
  readonly deaths: Float64Array;
  readonly deathWeight: Float64Array;
  readonly strata: readonly GroupLabel[];
  /** The follow-up as it was given. */
  readonly followUp: Pick<CoxInput, "time" | "event" | "entry">;
}

/** Arranges the input; refuses missing values, and columns of different lengths, by name. */
export function coxData(input: CoxInput): CoxData {
  const { time, event, entry, weight, strata } = input;
  requireSameLength({ time, event, entry, weight, strata });
  requireCovariates(input);
  const isEvent = new Uint8Array(time.length);
  for (let i = 0; i < time.length; i++) isEvent[i] = readEvent(event[i], i);
  const groups = codeGroups(strata ?? new Int32Array(time.length));
  const blocks = emptyBlocks();
  const lastBlock = new Int32Array(time.length).fill(-1);
  const entryBlock = new Int32Array(time.length).fill(-1);
  const rows = { input, isEvent, blocks, lastBlock, entryBlock };
  rowsByCode(groups).forEach((members, stratum) => {
    addStratum({ ...rows, rows: members, stratum });
  });
  const labels = strata === undefined ? [] : groups.labels;
  return arranged(rows, labels);
}

function requireCovariates({ time, covariates, names }: CoxInput): void {
  covariates.forEach((column, c) => {
    const name = names?.[c] ?? `x${c + 1}`;
    requireSameLength({ time, [name]: column });
    requireNumbers(name, column);
  });
}

interface PlacedRows {
  readonly input: CoxInput;
  readonly isEvent: Uint8Array;
  readonly blocks: Blocks;
  readonly lastBlock: Int32Array;
  readonly entryBlock: Int32Array;
}

/** The columns of the kept rows, in their order. */
function arranged(rows: PlacedRows, strata: readonly GroupLabel[]): CoxData {
  const { input, blocks, isEvent, lastBlock, entryBlock } = rows;
  const { time, event, entry, weight } = input;
  const { order, blockStart } = keptRows({ lastBlock, entryBlock, isEvent }, blocks.time.length);
  const weights = new Float64Array(order.length);
  for (let i = 0; i < order.length; i++) weights[i] = readWeight(weight, order[i]!);
  const columns = input.covariates.map((column) => gather(column, order));
  const means = Float64Array.from(columns, (column) => centre(column, weights));
  const events = gather(isEvent, order);
  return {
    rows: order.length,
    total: time.length,
    events: blocks.deathWeight.reduce((a, b) => a + b, 0),
    order,
    columns,
    means,
    eventSums: columnProducts(columns, multiplied(weights, events)),
    weight: weights,
    isEvent: new Uint8Array(events),
    lastBlock: gatherWhole(lastBlock, order),
    entryBlock: gatherWhole(entryBlock, order),
    blockStart,
    isDelayed: entry !== undefined,
    time: Float64Array.from(blocks.time),
    stratum: Int32Array.from(blocks.stratum),
    firstBlock: Int32Array.from(blocks.firstBlock),
    deaths: Float64Array.from(blocks.deaths),
    deathWeight: Float64Array.from(blocks.deathWeight),
    strata,
    followUp: entry === undefined ? { time, event } : { time, event, entry },
  };
}

interface Blocks {
  readonly time: number[];
  readonly stratum: number[];
  readonly firstBlock: number[];
  readonly deaths: number[];
  readonly deathWeight: number[];
}

function emptyBlocks(): Blocks {
  return { time: [], stratum: [], firstBlock: [], deaths: [], deathWeight: [] };
}

/** Finds the event times of one stratum and where its rows lie among them. */
function addStratum(
  at: PlacedRows & {
    readonly rows: Int32Array;
    readonly stratum: number;
  },
): void {
  const { rows, stratum, input, isEvent, blocks } = at;
  const index = indexTimes(gather(input.time, rows));
  const deaths = new Float64Array(index.times.length);
  const deathWeight = new Float64Array(index.times.length);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i]!;
    if (isEvent[row] === 0) continue;
    const position = index.position[i]!;
    deaths[position] = deaths[position]! + 1;
    deathWeight[position] = deathWeight[position]! + readWeight(input.weight, row);
  }
  const first = blocks.time.length;
  const blockAt = index.times.map((time, position) => {
    if (deaths[position]! > 0) {
      blocks.time.push(time);
      blocks.stratum.push(stratum);
      blocks.firstBlock.push(first);
      blocks.deaths.push(deaths[position]!);
      blocks.deathWeight.push(deathWeight[position]!);
    }
    return blocks.time.length - 1;
  });
  const isDelayed = input.entry !== undefined;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i]!;
    const position = index.position[i]!;
    at.lastBlock[row] = blockAt[position]!;
    at.entryBlock[row] = isDelayed
      ? entryBlockOf({ row, position, first, index, blockAt, input })
      : first - 1;
  }
}

function entryBlockOf(at: {
  row: number;
  position: number;
  first: number;
  index: { times: Float64Array; tolerance: number };
  blockAt: Float64Array;
  input: CoxInput;
}): number {
  const entry = at.input.entry?.[at.row] ?? 0;
  if (Number.isNaN(entry)) throw new RangeError(`entry[${at.row}] is NaN; expected a number`);
  if (entry <= 0) return at.first - 1;
  const before = positionAtOrBefore(at.index, entry);
  if (before >= at.position) {
    const time = at.input.time[at.row]!;
    throw new RangeError(`entry[${at.row}] is ${entry}; expected a time before ${time}`);
  }
  return before < 0 ? at.first - 1 : at.blockAt[before]!;
}

/** Rows at risk at some block, by last block and events first (a counting sort). */
function keptRows(
  rows: { lastBlock: Int32Array; entryBlock: Int32Array; isEvent: Uint8Array },
  blocks: number,
): { order: Int32Array; blockStart: Int32Array } {
  const { lastBlock, entryBlock, isEvent } = rows;
  // two places for each block: its events, then its other rows
  const starts = new Int32Array(2 * blocks + 1);
  for (let row = 0; row < lastBlock.length; row++) {
    if (lastBlock[row]! <= entryBlock[row]!) continue;
    const place = 2 * lastBlock[row]! + 2 - isEvent[row]!;
    starts[place] = starts[place]! + 1;
  }
  for (let place = 1; place < starts.length; place++) {
    starts[place] = starts[place]! + starts[place - 1]!;
  }
  const blockStart = Int32Array.from({ length: blocks + 1 }, (_, b) => starts[2 * b]!);
  const order = new Int32Array(starts.at(-1)!);
  for (let row = 0; row < lastBlock.length; row++) {
    if (lastBlock[row]! <= entryBlock[row]!) continue;
    const place = 2 * lastBlock[row]! + 1 - isEvent[row]!;
    order[starts[place]!] = row;
    starts[place] = starts[place]! + 1;
  }
  return { order, blockStart };
}

/** Centres a column on its weighted mean, in place, and gives the mean. */
export function centre(column: Float64Array, weights: Float64Array): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < column.length; i++) {
    sum += weights[i]! * column[i]!;
    total += weights[i]!;
  }
  const mean = total === 0 ? 0 : sum / total;
  for (let i = 0; i < column.length; i++) column[i] = column[i]! - mean;
  return mean;
}
