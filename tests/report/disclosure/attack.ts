import { rowSpace } from "./row-space.ts";

/**
 * What a reader of a shared report can do: every count is a sum over rows that no set tells apart,
 * so what is shown is a linear system; a count that is a combination of those shown is known. Works
 * modulo three primes, whose product is above 2^74, apart from the product's own elimination.
 */
export interface Told {
  readonly key: string;
  readonly rows: ReadonlySet<number>;
  readonly isShown: boolean;
}

/** The greatest primes below 2^25. */
const primes = [33554393, 33554383, 33554371] as const;

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
  const shown = told.flatMap((each, at) =>
    each.isShown ? [{ ...each, count: behind(each.rows), vector: vectors[at] ?? [] }] : [],
  );
  for (const outer of shown) {
    if (outer.count < threshold && outer.rows.size > 0) return [outer.key];
    for (const inner of shown) {
      // What is behind a part and behind its rest is together at least what is behind the whole.
      if (outer.count - inner.count >= threshold || outer.rows.size <= inner.rows.size) continue;
      if (inner.vector.some((each, atom) => each > (outer.vector[atom] ?? 0))) continue;
      const rest = new Set([...outer.rows].filter((row) => !inner.rows.has(row)));
      if (behind(rest) >= threshold) continue;
      const vector = outer.vector.map((each, atom) => each - (inner.vector[atom] ?? 0));
      targets.push({ key: `${outer.key} less ${inner.key}`, vector });
    }
  }
  return combinations(
    shown.map(({ vector }) => vector),
    targets,
  );
}

type Vector = readonly number[];

/** What is a combination modulo one prime is tried modulo the next; equal ones are tried once. */
function combinations(
  known: readonly Vector[],
  targets: readonly { readonly key: string; readonly vector: Vector }[],
): string[] {
  const different = [...byText(known).values()];
  let passed = byText(targets.map(({ vector }) => vector));
  for (const prime of primes) {
    if (passed.size === 0) return [];
    const space = rowSpace(different, prime);
    passed = new Map([...passed].filter(([, vector]) => space.holds(vector)));
  }
  return targets.filter(({ vector }) => passed.has(vector.join(""))).map(({ key }) => key);
}

/** Each once. All are of zeros and ones. */
function byText(vectors: readonly Vector[]): Map<string, Vector> {
  return new Map(vectors.map((vector) => [vector.join(""), vector]));
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
