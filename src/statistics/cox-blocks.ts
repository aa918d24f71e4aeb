/**
 * The blocks of a partial likelihood, its distinct event times within strata, and where each row lies
 * among them: at risk at the blocks after its `entryBlock` up to its `lastBlock`.
 */
import { readWeight } from "./event-tally.ts";
import { gather, gatherWhole } from "./gather.ts";
import { type GroupCodes, rowsByCode } from "./group-codes.ts";
import { indexTimes, positionAtOrBefore, type TimeIndex } from "./time-index.ts";

export interface TimedRows {
  readonly time: ArrayLike<number>;
  readonly isEvent: Uint8Array;
  readonly entry?: ArrayLike<number> | undefined;
  readonly weight?: ArrayLike<number> | undefined;
  readonly strata: GroupCodes;
}

export interface CoxBlocks {
  /** Per block: its time, its stratum, its stratum's first block, its events, their weight. */
  readonly time: Float64Array;
  readonly stratum: Int32Array;
  readonly firstBlock: Int32Array;
  readonly deaths: Float64Array;
  readonly deathWeight: Float64Array;
  /** Per row given: the last block at which it is at risk, and the last before it was. */
  readonly lastBlock: Int32Array;
  readonly entryBlock: Int32Array;
}

/** Finds the blocks, stratum by stratum; refuses an entry that is missing or not before its time. */
export function coxBlocks(rows: TimedRows): CoxBlocks {
  const { length } = rows.time;
  const found = { time: [], stratum: [], firstBlock: [], deaths: [], deathWeight: [] };
  const lastBlock = new Int32Array(length);
  const entryBlock = new Int32Array(length);
  const blocks: Blocks = { ...found, lastBlock, entryBlock };
  if (rows.strata.labels.length === 1) {
    const everyone = { index: indexTimes(rows.time), row: (i: number) => i, stratum: 0 };
    addStratum(blocks, rows, everyone);
  } else {
    rowsByCode(rows.strata).forEach((members, stratum) => {
      const pick = rows.time instanceof Int32Array ? gatherWhole : gather;
      const index = indexTimes(pick(rows.time, members));
      addStratum(blocks, rows, { index, row: (i: number) => members[i]!, stratum });
    });
  }
  return {
    time: Float64Array.from(blocks.time),
    stratum: Int32Array.from(blocks.stratum),
    firstBlock: Int32Array.from(blocks.firstBlock),
    deaths: Float64Array.from(blocks.deaths),
    deathWeight: Float64Array.from(blocks.deathWeight),
    lastBlock,
    entryBlock,
  };
}

interface Blocks {
  readonly time: number[];
  readonly stratum: number[];
  readonly firstBlock: number[];
  readonly deaths: number[];
  readonly deathWeight: number[];
  readonly lastBlock: Int32Array;
  readonly entryBlock: Int32Array;
}
