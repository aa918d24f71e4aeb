import type { Arrangement } from "../cases-protocol.ts";
import type { ShownLines } from "../host/book-state.ts";
import type { Host } from "../host/host.ts";

/** How the reader left the leaf of cases: it is there again when they come back to it. */
export interface LeafState {
  readonly arrangement: Arrangement;
  /** Names of columns that are not shown. */
  readonly hidden: ReadonlySet<string>;
  /** Names of columns of free text that the reader asked to see. */
  readonly asked: ReadonlySet<string>;
  /** Names of columns in the order the reader gave them; those that are not named come behind. */
  readonly order: readonly string[];
  /** The rows behind a number that were taken up last. */
  readonly taken?: ShownLines;
}

const fresh: LeafState = { arrangement: {}, hidden: new Set(), asked: new Set(), order: [] };
const states = new WeakMap<Host, LeafState>();

export function leafStateOf(host: Host | undefined): LeafState {
  return (host && states.get(host)) ?? fresh;
}

export function keepLeafState(host: Host | undefined, state: LeafState): void {
  if (host !== undefined) states.set(host, state);
}
