import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { CountedSet } from "../../../src/report/disclosure/counted-set.ts";
import { openCounts, primes } from "../../../src/report/disclosure/open-counts.ts";
import { Residuals } from "../../../src/report/disclosure/residuals.ts";
import { pinned, recovered } from "./attack.ts";

const rows = (from: number, count: number): number[] =>
  Array.from({ length: count }, (_, at) => from + at);
const set = (key: string, of: readonly number[], ...families: string[]): CountedSet => ({
  key,
  rows: new Set(of),
  families,
});
const told = (sets: readonly CountedSet[], open: ReadonlySet<string>) =>
  sets.map(({ key, rows: of }) => ({ key, rows: of, isShown: open.has(key) }));

describe("which counts may be shown", () => {
  test("a small count goes, and with it the smallest other part of the same total", () => {
    const sets = [
      set("all", rows(0, 60), "column"),
      set("a", rows(0, 40), "column"),
      set("b", rows(40, 17), "column"),
      set("c", rows(57, 3), "column"),
    ];
    expect([...openCounts(sets, 5)].sort()).toEqual(["a", "all"]);
  });

  test("nothing goes where nothing is small", () => {
    const sets = [set("all", rows(0, 30)), set("a", rows(0, 12)), set("b", rows(12, 18))];
    expect([...openCounts(sets, 5)].sort()).toEqual(["a", "all", "b"]);
  });

  test("the same question before and after a change of three rows is not shown twice", () => {
    const open = openCounts([set("before", rows(0, 50)), set("after", rows(0, 53))], 5);
    expect([...open]).toEqual(["after"]);
    expect(openCounts([set("before", rows(0, 50)), set("after", rows(0, 55))], 5).size).toBe(2);
  });

  test("a small count that only two tables together give away", () => {
    const sets = [
      set("by technique: buckle", rows(0, 20)),
      set("by technique: vitrectomy", rows(20, 20)),
      set("by risk: low", rows(0, 30)),
      set("by risk: high, but for three", rows(33, 7)),
    ];
    expect(recovered(told(sets, new Set(sets.map(({ key }) => key))), 5)).toEqual([]);
    const withThree = [...sets, set("three", rows(30, 3))];
    const shown = new Set(sets.map(({ key }) => key));
    expect(recovered(told(withThree, shown), 5)).toEqual(["three"]);
    const open = openCounts(withThree, 5);
    expect(open.has("three")).toBe(false);
    expect(recovered(told(withThree, open), 5)).toEqual([]);
  });

  test("counts that rates rest on are kept before others", () => {
    const sets = [set("lost", rows(0, 53)), { ...set("failed", rows(0, 50)), isLead: true }];
    expect([...openCounts(sets, 5)]).toEqual(["failed"]);
  });

  test("sets of the same rows are one count", () => {
    const sets = [set("x", rows(0, 9)), set("y", rows(0, 9)), set("z", rows(0, 2))];
    expect([...openCounts(sets, 5)].sort()).toEqual(["x", "y"]);
  });

  test.each([
    ["that sum to less than the threshold", 2, 2],
    ["that sum to twice the greatest small count", 4, 4],
  ])("two small parts %s take a third with them", (_, first, second) => {
    const sets = [
      set("all", rows(0, 40), "column"),
      set("a", rows(0, first), "column"),
      set("b", rows(first, second), "column"),
      set("c", rows(first + second, 12), "column"),
      set("d", rows(first + second + 12, 40 - first - second - 12), "column"),
    ];
    expect([...openCounts(sets, 5)].sort()).toEqual(["all", "d"]);
  });

  test("five eyes of four patients are a small count, and so is a difference of them", () => {
    const patientOf = new Map(rows(0, 40).map((row) => [row, `P${row < 2 ? 0 : row}`]));
    const sets = [set("all", rows(0, 40)), set("a", rows(0, 5)), set("b", rows(5, 35))];
    expect([...openCounts(sets, 5)].sort()).toEqual(["a", "all", "b"]);
    expect([...openCounts(sets, 5, { patientOf })]).toEqual(["all"]);
    const nested = [set("after", rows(0, 40)), set("before", rows(5, 35))];
    expect([...openCounts(nested, 5, { patientOf })]).toEqual(["after"]);
    expect(openCounts([set("a", rows(0, 6))], 5, { patientOf }).size).toBe(1);
  });

  test("a set that is only protected is not shown, and no small difference to it", () => {
    const lost = { ...set("lost", rows(0, 20)), isOnlyProtected: true };
    expect(openCounts([lost], 5).size).toBe(0);
    const sets = [
      set("all", rows(0, 60)),
      set("at risk", rows(20, 40)),
      set("unknown", rows(0, 17)),
    ];
    expect(openCounts(sets, 5).size).toBe(3);
    expect([...openCounts([...sets, lost], 5)].sort()).toEqual(["all", "at risk"]);
  });

  test("rows and columns together pin no small count", () => {
    const cells = [
      [2, 40, 1],
      [3, 3, 30],
      [20, 2, 25],
    ];
    const starts = cells.flat().map((_, at, all) => all.slice(0, at).reduce((a, b) => a + b, 0));
    const of = cells.map((row, r) => row.map((count, c) => rows(starts[3 * r + c] ?? 0, count)));
    const sets = [0, 1, 2].flatMap((r) => [
      ...(of[r] ?? []).map((cell, c) => set(`${r}${c}`, cell, `row ${r}`, `column ${c}`)),
      set(`${r} all`, (of[r] ?? []).flat(), `row ${r}`, "column all"),
      set(
        `all ${r}`,
        of.flatMap((row) => row[r] ?? []),
        "row all",
        `column ${r}`,
      ),
    ]);
    const whole = set("all", of.flat(2), "row all", "column all");
    const open = openCounts([...sets, whole], 5);
    const divisions = [0, 1, 2].flatMap((each) => [
      { total: `${each} all`, parts: [0, 1, 2].map((c) => `${each}${c}`) },
      { total: `all ${each}`, parts: [0, 1, 2].map((r) => `${r}${each}`) },
    ]);
    expect(pinned(told(sets, open), divisions, { threshold: 5 })).toEqual([]);
    expect(open.has("all")).toBe(true);
  });

  test("no count at all, and empty sets", () => {
    expect(openCounts([], 5).size).toBe(0);
    expect(openCounts([set("none", [])], 5).size).toBe(0);
  });

  test("random nested and crossing sets: nothing small can be had", () => {
    const sets = fc.array(
      fc.record({
        from: fc.integer({ min: 0, max: 39 }),
        count: fc.integer({ min: 1, max: 40 }),
        every: fc.integer({ min: 1, max: 3 }),
        family: fc.integer({ min: 0, max: 3 }),
      }),
      { minLength: 2, maxLength: 24 },
    );
    fc.assert(
      fc.property(sets, fc.integer({ min: 2, max: 7 }), (asked, threshold) => {
        const made = asked.map(({ from, count, every, family }, at) =>
          set(
            `s${at}`,
            rows(from, count).filter((row) => row < 40 && row % every === 0),
            `f${family}`,
          ),
        );
        const open = openCounts(made, threshold);
        const counts = told(made, open).filter(({ rows: of }) => of.size > 0);
        const small = counts.filter(({ rows: of }) => of.size < threshold).map(({ key }) => key);
        const had = recovered(counts, threshold);
        expect(had.filter((key) => small.includes(key) || key.includes(" less "))).toEqual([]);
      }),
      { numRuns: 300, seed: 11 },
    );
  });
});

describe("the elimination", () => {
  test("the moduli are the two greatest primes below 2^26", () => {
    const isPrime = (n: number): boolean => {
      for (let by = 2; by * by <= n; by++) if (n % by === 0) return false;
      return true;
    };
    const found: number[] = [];
    for (let n = 2 ** 26 - 1; found.length < 2; n--) if (isPrime(n)) found.push(n);
    expect([...primes]).toEqual(found);
    expect(() => new Residuals([], 2 ** 26)).toThrow(RangeError);
  });

  test("knows what the basis makes", () => {
    const vectors = [
      [1, 1, 0],
      [0, 1, 1],
      [1, 0, -1],
      [1, 2, 1],
      [0, 0, 1],
    ];
    const system = new Residuals(vectors, primes[0]);
    system.take(0);
    expect([1, 2, 3, 4].map((at) => system.isMadeWith(at, 1))).toEqual([true, true, true, false]);
    system.take(1);
    expect([1, 2, 3, 4].map((at) => system.isMadeWith(at, 0))).toEqual([true, true, true, false]);
  });
});
