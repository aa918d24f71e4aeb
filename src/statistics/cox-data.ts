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
  const groups = codeGroups(strata ?? new Int32Array(time.length), undefined, "strata");
  const blocks = coxBlocks({ time, isEvent, entry, weight, strata: groups });
  const kept = keptRows({ ...blocks, isEvent }, blocks.time.length);
  const rows = { ...kept, ...weightsOf(kept.order, isEvent, weight) };
  return {
    ...blocks,
    ...coxColumns(covariates, rows),
    rows: kept.order.length,
    total: time.length,
    events: blocks.deathWeight.reduce((a, b) => a + b, 0),
    order: kept.order,
    weight: rows.weight,
    isEvent: rows.isEvent,
    lastBlock: gatherWhole(blocks.lastBlock, kept.order),
    entryBlock: gatherWhole(blocks.entryBlock, kept.order),
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
function weightsOf(order: Int32Array, isEventOf: Uint8Array, weights: CoxInput["weight"]) {
  const weight = new Float64Array(order.length).fill(1);
  const eventWeight = new Float64Array(order.length);
  const isEvent = new Uint8Array(order.length);
  for (let i = 0; i < order.length; i++) {
    if (weights !== undefined) weight[i] = readWeight(weights, order[i]!);
    isEvent[i] = isEventOf[order[i]!]!;
    eventWeight[i] = weight[i]! * isEvent[i]!;
  }
  return { weight, eventWeight, isEvent };
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
