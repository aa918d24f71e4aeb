import { rowCount } from "../cases/table.ts";
import type { Minuted } from "../notebook/minuted.ts";
import type { CellState } from "./cell-state.ts";
import { checkMinuted, type MinutedCheck } from "./check-minuted.ts";
import { footingOf, type Ground } from "./footing-of.ts";
import { whyMoved } from "./why-moved.ts";

/** What a meeting was told, and how it stands now. */
export type MinutedNow = MinutedCheck & {
  /** Whole days since 1970-01-01. */
  readonly day: number;
  readonly text: string;
  /** Where it moved: what is different from then, in words; empty where that is not known. */
  readonly because: readonly string[];
};

const nothingKept = "rows, corrections, workings and version are as they were then";

interface CellNow {
  readonly cell: string;
  readonly state: CellState;
  readonly ground: Ground | undefined;
}

/** Checks a minuted line; only of one that moved is it worked out why. */
export function minutedNow(line: Minuted, { cell, state, ground }: CellNow): MinutedNow {
  const { day, text, restsOn } = line;
  const check = checkMinuted(text, state);
  if (check.verdict !== "moved" || restsOn === undefined || ground === undefined) {
    return { day, text, ...check, because: [] };
  }
  const now = footingOf(cell, ground, restsOn.rows.lastDay);
  const because = whyMoved(restsOn, now, { rows: rowCount(ground.cases) });
  return { day, text, ...check, because: because.length > 0 ? because : [nothingKept] };
}
