/**
 * Follow-up and covariates arranged for the partial likelihood.
 *
 * A block is a distinct event time within a stratum. A row is at risk at the blocks after its
 * `entryBlock` up to its `lastBlock`, so every sum over a risk set is a running sum over blocks.
 * Rows that are at risk at no event are left out: they have no part in the likelihood. Covariates
 * are centred, which changes no coefficient. Rows are in the order of their last block, and within a
 * block those with the event come first, so that sums over events and risk sets are over runs of rows.
 */
import { requireNumbers, requireSameLength } from "./argument-checks.ts";
import { type CoxBlocks, coxBlocks } from "./cox-blocks.ts";
import { type CoxColumns, coxColumns } from "./cox-columns.ts";
import { readWeight } from "./event-tally.ts";
import { gatherWhole } from "./gather.ts";
import { codeGroups, type GroupLabel } from "./group-codes.ts";
import { eventBytes } from "./whole-days.ts";

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

export interface CoxData extends CoxBlocks, CoxColumns {
  /** Rows that are at risk at some event. */
  readonly rows: number;
  /** Rows given, and weighted events among them. */
  readonly total: number;
  readonly events: number;
  /** For each kept row its number among the rows given; what is by row is in this order. */
  readonly order: Int32Array;
  readonly weight: Float64Array;
  readonly isEvent: Uint8Array;
  /** Where each block's rows start; the events of block b are its first `deaths[b]` rows. */
  readonly blockStart: Int32Array;
  /** Whether any row came under observation late. */
  readonly isDelayed: boolean;
  readonly strata: readonly GroupLabel[];
  /** The follow-up as it was given. */
  readonly followUp: Pick<CoxInput, "time" | "event" | "entry">;
}

/** Arranges the input; refuses missing values, and columns of different lengths, by name. */
export function coxData(input: CoxInput): CoxData {
  const { time, event, entry, weight, strata, covariates } = input;
  requireSameLength({ time, event, entry, weight, strata });
  requireCovariates(input);
  const isEvent = eventBytes(event);
  const groups =
    strata === undefined
      ? { labels: [0], codes: new Int32Array(0) }
      : codeGroups(strata, undefined, "strata");
  const blocks = coxBlocks({ time, isEvent, entry, weight, strata: groups });
  const kept = keptRows({ ...blocks, isEvent }, blocks.time.length);
  const runs = runsOf(kept, blocks);
  const rows = { order: kept.order, ...weightsOf(kept.order, runs.isEvent, weight) };
  return {
    ...blocks,
    ...coxColumns(covariates, rows),
    rows: kept.order.length,
    total: time.length,
    events: blocks.deathWeight.reduce((a, b) => a + b, 0),
    order: kept.order,
    weight: rows.weight,
    ...runs,
    entryBlock: entry === undefined ? runs.entryBlock : gatherWhole(blocks.entryBlock, kept.order),
    blockStart: kept.blockStart,
    isDelayed: entry !== undefined,
    strata: strata === undefined ? [] : groups.labels,
    followUp: entry === undefined ? { time, event } : { time, event, entry },
  };
}

function requireCovariates({ time, covariates, names }: CoxInput): void {
  covariates.forEach((column, c) => {
    const name = names?.[c] ?? `x${c + 1}`;
    requireSameLength({ time, [name]: column });
    requireNumbers(name, column);
  });
}

/** The weight of each kept row, and as much again for those with the event. */
function weightsOf(order: Int32Array, isEvent: Uint8Array, weights: CoxInput["weight"]) {
  const weight = new Float64Array(order.length).fill(1);
  const eventWeight = new Float64Array(order.length);
  if (weights !== undefined) {
    for (let i = 0; i < order.length; i++) weight[i] = readWeight(weights, order[i]!);
  }
  for (let i = 0; i < order.length; i++) eventWeight[i] = weight[i]! * isEvent[i]!;
  return { weight, eventWeight };
}

/** What the kept rows of a block have in common; their entry block where nobody entered late. */
function runsOf({ order, blockStart }: KeptRows, { deaths, firstBlock }: CoxBlocks) {
  const isEvent = new Uint8Array(order.length);
  const lastBlock = new Int32Array(order.length);
  const entryBlock = new Int32Array(order.length);
  for (let b = 0; b < deaths.length; b++) {
    const [start, end] = [blockStart[b]!, blockStart[b + 1]!];
    lastBlock.fill(b, start, end);
    entryBlock.fill(firstBlock[b]! - 1, start, end);
    isEvent.fill(1, start, start + deaths[b]!);
  }
  return { isEvent, lastBlock, entryBlock };
}

interface KeptRows {
  readonly order: Int32Array;
  readonly blockStart: Int32Array;
}

/** Rows at risk at some block, by last block and events first (a counting sort). */
function keptRows(
  rows: { lastBlock: Int32Array; entryBlock: Int32Array; isEvent: Uint8Array },
  blocks: number,
): KeptRows {
  const { lastBlock, entryBlock, isEvent } = rows;
  // two places for each block, its events and then its other rows, and a last one for rows at risk at none
  const places = new Int32Array(lastBlock.length);
  const starts = new Int32Array(2 * blocks + 2);
  for (let row = 0; row < places.length; row++) {
    const isKept = lastBlock[row]! > entryBlock[row]!;
    const place = isKept ? 2 * lastBlock[row]! + 1 - isEvent[row]! : 2 * blocks;
    places[row] = place;
    starts[place + 1] = starts[place + 1]! + 1;
  }
  for (let place = 1; place < starts.length; place++) {
    starts[place] = starts[place]! + starts[place - 1]!;
  }
  const blockStart = Int32Array.from({ length: blocks + 1 }, (_, b) => starts[2 * b]!);
  const sorted = new Int32Array(places.length);
  for (let row = 0; row < places.length; row++) {
    const place = places[row]!;
    const at = starts[place]!;
    sorted[at] = row;
    starts[place] = at + 1;
  }
  return { order: sorted.subarray(0, blockStart[blocks]!), blockStart };
}
