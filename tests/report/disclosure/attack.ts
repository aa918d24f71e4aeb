import { rowSpace } from "./row-space.ts";

/**
 * What a reader of a shared report can do: every count is a sum over rows that no set tells apart,
 * so what is shown is a linear system; a count that is a combination of those shown is known. Works
 * modulo 2^61 - 1 in whole numbers without end, apart from the product's own elimination.
 */
export interface Told {
  readonly key: string;
  readonly rows: ReadonlySet<number>;
  readonly isShown: boolean;
}

const prime = 2n ** 61n - 1n;

/** How many stand behind rows: the rows themselves, or the patients they belong to. */
export type Behind = (rows: ReadonlySet<number>) => number;

const rowsThemselves: Behind = (rows) => rows.size;

/** The keys of the hidden counts, and of differences of nested sets under the threshold, that can be had. */
export function recovered(
  told: readonly Told[],
  threshold: number,
  behind: Behind = rowsThemselves,
): string[] {
  const vectors = vectorsOf(told.map(({ rows }) => rows));
  const targets = told.flatMap(({ key, isShown, rows }, at) =>
    !isShown && rows.size > 0 ? [{ key, vector: vectors[at] ?? [] }] : [],
  );
  const shown = told.flatMap((each, at) => (each.isShown ? [{ ...each, at }] : []));
  for (const outer of shown) {
    if (behind(outer.rows) < threshold && outer.rows.size > 0) return [outer.key];
    for (const inner of shown) {
      if (outer.rows.size <= inner.rows.size || !isSubset(inner.rows, outer.rows)) continue;
      const rest = new Set([...outer.rows].filter((row) => !inner.rows.has(row)));
      if (behind(rest) >= threshold) continue;
      const vector = (vectors[outer.at] ?? []).map((v, i) => v - (vectors[inner.at]?.[i] ?? 0));
      targets.push({ key: `${outer.key} less ${inner.key}`, vector });
    }
  }
  const known = told.flatMap(({ isShown }, at) => (isShown ? [vectors[at] ?? []] : []));
  return combinations(known, targets);
}

/** Sieved modulo a small prime, which is quick; what passes is worked out modulo the great one. */
function combinations(
  known: readonly (readonly number[])[],
  targets: readonly { readonly key: string; readonly vector: readonly number[] }[],
): string[] {
  const space = rowSpace(known);
  const passed = targets.filter(({ vector }) => space.holds(vector));
  if (passed.length === 0) return [];
  const basis = echelon(known.map((vector) => vector.map(BigInt)));
  return passed.filter(({ vector }) => isIn(basis, vector.map(BigInt))).map(({ key }) => key);
}

export function isSubset(inner: ReadonlySet<number>, outer: ReadonlySet<number>): boolean {
  return [...inner].every((row) => outer.has(row));
}

/** 0/1 vectors over groups of rows that no set tells apart. */
function vectorsOf(sets: readonly ReadonlySet<number>[]): number[][] {
  const rows = [...new Set(sets.flatMap((set) => [...set]))];
  const atoms = new Map<string, number>();
  for (const row of rows) atoms.set(sets.map((set) => (set.has(row) ? "1" : "0")).join(""), row);
  const representatives = [...atoms.values()];
  return sets.map((set) => representatives.map((row) => (set.has(row) ? 1 : 0)));
}

interface Pivoted {
  readonly pivot: number;
  readonly vector: readonly bigint[];
}

function echelon(vectors: readonly (readonly bigint[])[]): Pivoted[] {
  const basis: Pivoted[] = [];
  for (const vector of vectors) {
    const left = reduced(basis, vector);
    const pivot = left.findIndex((each) => each !== 0n);
    if (pivot === -1) continue;
    const inverse = power(left[pivot] ?? 1n, prime - 2n);
    basis.push({ pivot, vector: left.map((each) => (each * inverse) % prime) });
  }
  return basis;
}

function reduced(basis: readonly Pivoted[], vector: readonly bigint[]): bigint[] {
  const left = vector.map((each) => ((each % prime) + prime) % prime);
  for (const { pivot, vector: by } of basis) {
    const factor = prime - (left[pivot] ?? 0n);
    if (factor === prime) continue;
    by.forEach((each, at) => {
      if (each !== 0n) left[at] = ((left[at] ?? 0n) + factor * each) % prime;
    });
  }
  return left;
}

function isIn(basis: readonly Pivoted[], vector: readonly bigint[]): boolean {
  return reduced(basis, vector).every((each) => each === 0n);
}

function power(base: bigint, exponent: bigint): bigint {
  let result = 1n;
  for (let square = base, left = exponent; left > 0n; left /= 2n) {
    if (left % 2n === 1n) result = (result * square) % prime;
    square = (square * square) % prime;
  }
  return result;
}

/** Sets that divide another without a rest, as a table's rows divide its total. */
export interface Division {
  readonly total: string;
  readonly parts: readonly string[];
}

/**
 * The hidden counts under the threshold that bounds pin to one value, where each hidden count is
 * known to be at least 1 and parts add up to their totals.
 */
export function pinned(
  told: readonly Told[],
  divisions: readonly Division[],
  { threshold, behind = rowsThemselves }: { readonly threshold: number; readonly behind?: Behind },
): string[] {
  const bounds = new Map(
    told.map(({ key, isShown, rows }) => [
      key,
      isShown
        ? { least: rows.size, most: rows.size }
        : { least: 1, most: Number.POSITIVE_INFINITY },
    ]),
  );
  const of = (key: string) => bounds.get(key) ?? { least: 0, most: Number.POSITIVE_INFINITY };
  for (let round = 0; round < 20; round++) {
    for (const { total, parts } of divisions) {
      const whole = of(total);
      const sum = (limit: "least" | "most", keys: readonly string[]) =>
        keys.reduce((all, key) => all + of(key)[limit], 0);
      whole.least = Math.max(whole.least, sum("least", parts));
      whole.most = Math.min(whole.most, sum("most", parts));
      for (const part of parts) {
        const others = parts.filter((each) => each !== part);
        const own = of(part);
        own.least = Math.max(own.least, whole.least - sum("most", others));
        own.most = Math.min(own.most, whole.most - sum("least", others));
      }
    }
  }
  return told.flatMap(({ key, isShown, rows }) => {
    const { least, most } = of(key);
    return !isShown && behind(rows) < threshold && least === most ? [key] : [];
  });
}
