import { nearestName } from "../problem/nearest-name.ts";

/** The names that one cell's working mentions. */
export interface CellNames {
  readonly name: string;
  /** Names that must be cells or inputs of the sheet. */
  readonly certain: ReadonlySet<string>;
  /** Names in row expressions: columns, or else cells. */
  readonly perhaps: ReadonlySet<string>;
}

export interface CellOrder {
  /** Each cell behind all that feed it; cells on a cycle, or fed by one, come last. */
  readonly order: readonly string[];
  /** By cell: the cells and inputs that feed it. */
  readonly feeds: ReadonlyMap<string, Feeds>;
  /** By cell on a cycle: the way from it back to it, both ends named. */
  readonly cycles: ReadonlyMap<string, readonly string[]>;
  /** By cell: names that are neither cell nor input, with the nearest one that is. */
  readonly unknown: ReadonlyMap<string, readonly UnknownName[]>;
}

export interface Feeds {
  readonly certain: readonly string[];
  readonly perhaps: readonly string[];
  /**
   * Names in row expressions that would close a cycle if they were cells, with the way. They are
   * taken for columns (`technique = count_by(eyes, by: technique)`).
   */
  readonly closing: ReadonlyMap<string, readonly string[]>;
}

export interface UnknownName {
  readonly name: string;
  readonly nearest?: string;
}

type Edges = ReadonlyMap<string, readonly string[]>;

/** Works out what feeds what. Pure; in time that grows with cells and names, cycles apart. */
export function orderOfCells(cells: readonly CellNames[], inputs: Iterable<string>): CellOrder {
  const known = new Set([...cells.map((cell) => cell.name), ...inputs]);
  const certain = edgesOf(cells, (cell) => knownIn(cell.certain, known));
  const all = edgesOf(cells, (cell) => knownIn(new Set([...cell.certain, ...cell.perhaps]), known));
  const feeds = new Map(cells.map((cell) => [cell.name, feedsOf(cell, certain, all)]));
  const kept = edgesOf(cells, ({ name }) => [
    ...feeds.get(name)!.certain,
    ...feeds.get(name)!.perhaps,
  ]);
  const { order, left } = peel(kept);
  const ways = left.map((name) => [name, wayBack(name, certain)] as const);
  const cycles = new Map(ways.filter((way): way is [string, string[]] => way[1] !== null));
  return { order: [...order, ...left], feeds, cycles, unknown: unknownNames(cells, known) };
}

/** Everything that depends on what changed, the changed names themselves included. */
export function staleAfter(from: Edges, changed: Iterable<string>): Set<string> {
  const to = new Map<string, string[]>();
  for (const [name, feeds] of from) {
    for (const feed of feeds) to.set(feed, [...(to.get(feed) ?? []), name]);
  }
  const stale = new Set(changed);
  for (const name of stale) for (const fed of to.get(name) ?? []) stale.add(fed);
  return stale;
}

/** Which names a working mentions are cells or inputs; perhaps ones that close a cycle apart. */
function feedsOf(cell: CellNames, certain: Edges, all: Edges): Feeds {
  const own = certain.get(cell.name)!;
  const closing = new Map<string, readonly string[]>();
  const perhaps: string[] = [];
  for (const name of all.get(cell.name)!) {
    if (own.includes(name)) continue;
    const way = wayTo(cell.name, [name], all);
    if (way === null) perhaps.push(name);
    else closing.set(name, [cell.name, ...way]);
  }
  return { certain: own, perhaps, closing };
}

/** The shortest way from a cell along what feeds it back to the cell, or null. */
function wayBack(name: string, edges: Edges): string[] | null {
  const way = wayTo(name, edges.get(name) ?? [], edges);
  return way === null ? null : [name, ...way];
}

/** The shortest way to `goal` from any of `starts`, both ends in it, or null. */
function wayTo(goal: string, starts: readonly string[], edges: Edges): string[] | null {
  const from = new Map<string, string | null>(starts.map((start) => [start, null]));
  for (const name of from.keys()) {
    if (name === goal) return trace(goal, from);
    for (const next of edges.get(name) ?? []) if (!from.has(next)) from.set(next, name);
  }
  return null;
}

function trace(goal: string, from: ReadonlyMap<string, string | null>): string[] {
  const way: string[] = [];
  for (let at: string | null = goal; at !== null; at = from.get(at) ?? null) way.unshift(at);
  return way;
}

/** Takes off, one after another, the cells that nothing left feeds; `left` are on or behind a cycle. */
function peel(edges: Edges): { readonly order: string[]; readonly left: string[] } {
  const waiting = new Map<string, number>();
  const fed = new Map<string, string[]>();
  for (const [name, feeds] of edges) {
    const cells = feeds.filter((feed) => edges.has(feed));
    waiting.set(name, cells.length);
    for (const feed of cells) fed.set(feed, [...(fed.get(feed) ?? []), name]);
  }
  const order = [...edges.keys()].filter((name) => waiting.get(name) === 0);
  for (const name of order) {
    for (const next of fed.get(name) ?? []) {
      waiting.set(next, waiting.get(next)! - 1);
      if (waiting.get(next) === 0) order.push(next);
    }
  }
  const done = new Set(order);
  return { order, left: [...edges.keys()].filter((name) => !done.has(name)) };
}

function unknownNames(
  cells: readonly CellNames[],
  known: ReadonlySet<string>,
): Map<string, UnknownName[]> {
  const unknown = new Map<string, UnknownName[]>();
  for (const cell of cells) {
    const names = [...cell.certain].filter((name) => !known.has(name));
    if (names.length > 0)
      unknown.set(
        cell.name,
        names.map((name) => unknownName(name, known)),
      );
  }
  return unknown;
}

function unknownName(name: string, known: ReadonlySet<string>): UnknownName {
  const nearest = nearestName(name, known);
  return nearest === undefined ? { name } : { name, nearest };
}

function edgesOf(
  cells: readonly CellNames[],
  names: (cell: CellNames) => readonly string[],
): Map<string, readonly string[]> {
  return new Map(cells.map((cell) => [cell.name, names(cell)]));
}

function knownIn(names: ReadonlySet<string>, known: ReadonlySet<string>): string[] {
  return [...names].filter((name) => known.has(name));
}
