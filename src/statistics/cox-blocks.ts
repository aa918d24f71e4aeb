/**
 * The blocks of a partial likelihood, its distinct event times within strata, and where each row lies
 * among them: at risk at the blocks after its `entryBlock` up to its `lastBlock`.
 */
import { entryPosition, readWeight } from "./event-tally.ts";
import { gather, gatherWhole, rowNumbers } from "./gather.ts";
import { type GroupCodes, rowsByCode } from "./group-codes.ts";
import { indexTimes, type TimeIndex } from "./time-index.ts";

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
  /** By row: the last block at which it is at risk, and the last before it came under observation. */
  readonly lastBlock: Int32Array;
  readonly entryBlock: Int32Array;
}

/** Finds the blocks, stratum by stratum; refuses an entry that is missing or not before its time. */
export function coxBlocks(rows: TimedRows): CoxBlocks {
  const lists = { time: [], stratum: [], firstBlock: [], deaths: [], deathWeight: [] };
  const { length } = rows.time;
  const places = { lastBlock: new Int32Array(length), entryBlock: new Int32Array(length) };
  const found: Found = { ...lists, ...places };
  const isWhole = rows.strata.labels.length === 1;
  const strata = isWhole ? [rowNumbers(length)] : rowsByCode(rows.strata);
  strata.forEach((members, stratum) => {
    addStratum(found, rows, { members, stratum });
  });
  return {
    time: Float64Array.from(found.time),
    stratum: Int32Array.from(found.stratum),
    firstBlock: Int32Array.from(found.firstBlock),
    deaths: Float64Array.from(found.deaths),
    deathWeight: Float64Array.from(found.deathWeight),
    ...places,
  };
}

/** Blocks as they are found, in the order of their lists. */
interface Found {
  readonly time: number[];
  readonly stratum: number[];
  readonly firstBlock: number[];
  readonly deaths: number[];
  readonly deathWeight: number[];
  readonly lastBlock: Int32Array;
  readonly entryBlock: Int32Array;
}

function addStratum(
  found: Found,
  rows: TimedRows,
  { members, stratum }: { members: Int32Array; stratum: number },
): void {
  const index = indexTimes(timesOf(rows.time, members));
  const first = found.time.length;
  const blockAt = addBlocks(found, countDeaths(rows, members, index), { index, stratum });
  placeRows(found, { blockAt, position: index.position, members, before: first - 1 });
  const { entry } = rows;
  for (let i = 0; entry !== undefined && i < members.length; i++) {
    const before = entryPosition(index, { entry, time: rows.time, row: members[i]!, at: i });
    if (before >= 0) found.entryBlock[members[i]!] = blockAt[before]!;
  }
}

/** Sets each row's last block, and the block before all of its stratum. */
function placeRows(
  { lastBlock, entryBlock }: Found,
  { blockAt, position, members, before }: PlacedRows,
): void {
  if (members.length === lastBlock.length) {
    entryBlock.fill(before);
    for (let i = 0; i < position.length; i++) lastBlock[i] = blockAt[position[i]!]!;
    return;
  }
  for (let i = 0; i < members.length; i++) {
    const row = members[i]!;
    lastBlock[row] = blockAt[position[i]!]!;
    entryBlock[row] = before;
  }
}

interface PlacedRows {
  readonly blockAt: Int32Array;
  readonly position: Int32Array;
  readonly members: Int32Array;
  readonly before: number;
}

/** The times of a stratum's rows, whole days as whole numbers; all times as they are. */
function timesOf(time: ArrayLike<number>, members: Int32Array): ArrayLike<number> {
  if (members.length === time.length) return time;
  return time instanceof Int32Array ? gatherWhole(time, members) : gather(time, members);
}

interface Deaths {
  readonly deaths: Float64Array;
  readonly weights: Float64Array;
}

/** Events at each distinct time, and their weight. */
function countDeaths(
  { isEvent, weight }: TimedRows,
  members: Int32Array,
  index: TimeIndex,
): Deaths {
  const { position, times } = index;
  const counts = new Int32Array(times.length);
  for (let i = 0; i < members.length; i++) {
    const at = position[i]!;
    counts[at] = counts[at]! + isEvent[members[i]!]!;
  }
  const deaths = new Float64Array(counts);
  const weights = weight === undefined ? deaths : new Float64Array(times.length);
  for (let i = 0; weight !== undefined && i < members.length; i++) {
    if (isEvent[members[i]!] === 0) continue;
    weights[position[i]!] = weights[position[i]!]! + readWeight(weight, members[i]!);
  }
  return { deaths, weights };
}

/** Adds a block for each time with events; gives by distinct time the last block at or before it. */
function addBlocks(
  found: Found,
  { deaths, weights }: Deaths,
  { index, stratum }: { index: TimeIndex; stratum: number },
): Int32Array {
  const first = found.time.length;
  const blockAt = new Int32Array(index.times.length);
  for (let position = 0; position < blockAt.length; position++) {
    if (deaths[position]! > 0) {
      found.time.push(index.times[position]!);
      found.stratum.push(stratum);
      found.firstBlock.push(first);
      found.deaths.push(deaths[position]!);
      found.deathWeight.push(weights[position]!);
    }
    blockAt[position] = found.time.length - 1;
  }
  return blockAt;
}
