import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { settings } from "../../references/false-signals/drawn-unit.ts";
import { type LookedAt, lookedAt } from "../../references/false-signals/looked-at.ts";

interface SignalRow {
  readonly what: string;
  readonly series: number;
  readonly stated: number;
  readonly observed: number;
  readonly standardError: number;
}

const file = "tests/references/false-signals/false-signals.json";
const table = JSON.parse(readFileSync(file, "utf8")) as {
  readonly settings: unknown;
  readonly rows: readonly SignalRow[];
  /** What the questions said of the first units. */
  readonly first: readonly LookedAt[];
};
const rowOf = (start: string): SignalRow => {
  const row = table.rows.find(({ what }) => what.startsWith(start));
  if (row === undefined) throw new Error(`no row ${start}`);
  return row;
};

describe("500 drawn units in which nothing has changed", () => {
  test("the table is of these settings", () => {
    expect(table.settings).toEqual(JSON.parse(JSON.stringify(settings)));
  });

  test.each([
    "doubled odds, expected from the true risks",
    "halved odds, expected from the true risks",
    "doubled odds, expected from a model of others",
    "halved odds, expected from a model of others",
    "14% called reached",
  ])("%s: as many false signals as the answers state", (what) => {
    const { observed, stated, standardError } = rowOf(what);
    expect(Math.abs(observed - stated)).toBeLessThan(3 * standardError);
  });

  test("a doubling is noticed as often as the answers state", () => {
    const { observed, stated, standardError } = rowOf("doubled odds noticed");
    expect(Math.abs(observed - stated)).toBeLessThan(3 * standardError);
  });

  test.each(["a surgeon outside the 99.8%", "an interval of observed over expected"])(
    "%s: no more than the level, but for the drawing",
    (what) => {
      const { observed, stated, standardError } = rowOf(what);
      expect(observed).toBeLessThan(stated + 3 * standardError);
    },
  );

  test.each(table.first.map((committed, unit) => ({ committed, unit })))(
    "unit $unit drawn again says what is committed of it",
    ({ committed, unit }) => {
      const again = lookedAt(unit);
      expect(signalsOf(again)).toEqual(signalsOf(committed));
      statedOf(again).forEach((stated, at) => {
        expect(stated).toBeCloseTo(statedOf(committed)[at] ?? Number.NaN, 8);
      });
    },
  );
});

function watchedIn({ published, modelled, doubled, reached }: LookedAt) {
  const both = [published, modelled].flatMap(({ worse, better }) => [worse, better]);
  return [...both, doubled, reached];
}

function signalsOf(unit: LookedAt): readonly (boolean | number)[] {
  const signals = watchedIn(unit).map(({ signalled }) => signalled);
  return [...signals, unit.outside95, unit.outside998, unit.apart];
}

function statedOf(unit: LookedAt): readonly number[] {
  return watchedIn(unit).map(({ stated }) => stated);
}
