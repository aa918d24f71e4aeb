/**
 * Every interval and every test that the product shows has its column in a table of real coverage, and the
 * tables are what their code gives. The list in `legs/counted.txt` says where each stands.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { poolingVocabulary } from "../../src/questions/vocabulary.ts";
import type { CoverageTable } from "../references/real-coverage/coverage-table.ts";
import { coverageTables } from "../references/real-coverage/coverage-tables.ts";
import { inWords } from "../references/real-coverage/table-in-words.ts";
import { plumbing, usedElsewhere } from "./legs/used-elsewhere.ts";
import { expectNear } from "./near.ts";

type Cell = Readonly<Record<string, number | null>>;
interface Stored {
  readonly settings: Readonly<Record<string, number>>;
  readonly cells: readonly Cell[];
}

const folder = new URL("../references/real-coverage/", import.meta.url);
const stored = new Map(
  readdirSync(folder)
    .filter((name) => name.endsWith(".json"))
    .map((name) => [
      name.replace(".json", ""),
      JSON.parse(readFileSync(new URL(name, folder), "utf8")) as Stored,
    ]),
);

/** Columns that say of what a cell is, or in how many series there was nothing to count. */
const places = ["eyes", "rate", "bilateral"];
const isPlace = (column: string) => places.includes(column) || column.endsWith("Unknown");

/** The parameters by which a question chooses an interval, limits, a test or a model. */
const choosing = ["interval", "limits", "test", "variance", "method", "model"];

const listed = readList(readFileSync(new URL("legs/counted.txt", import.meta.url), "utf8"));

describe("the list of what is counted", () => {
  it("has every statistic that has its legs, what other rooms use, and every choice offered", () => {
    const legs = readFileSync(new URL("legs/legs.txt", import.meta.url), "utf8");
    const statistics = legs.split("\n").filter((line) => /^\w+$/.test(line));
    const room = new URL("../../src/statistics/", import.meta.url);
    const functions = readdirSync(room)
      .filter((name) => name.endsWith(".ts"))
      .flatMap((name) => functionsOf(readFileSync(new URL(name, room), "utf8")));
    const elsewhere = usedElsewhere();
    const used = functions.filter((name) => elsewhere.has(name) && !plumbing.includes(name));
    const expected = new Set([...statistics, ...used, ...choicesOffered()]);
    expect([...expected].filter((name) => !listed.has(name))).toEqual([]);
    expect([...listed.keys()].filter((name) => !expected.has(name))).toEqual([]);
  });

  it.each([...listed])("%s stands in columns that exist, or has a reason", (name, lines) => {
    expect(lines.length, name).toBeGreaterThan(0);
    for (const { table, columns, reason } of lines) {
      if (table === "none") expect(reason.length, name).toBeGreaterThan(8);
      else
        expect(Object.keys(stored.get(table)!.cells[0]!)).toEqual(
          expect.arrayContaining([...columns]),
        );
    }
  });

  it("names every column of every table", () => {
    const named = new Set(
      [...listed.values()]
        .flat()
        .flatMap(({ table, columns }) => columns.map((c) => `${table} ${c}`)),
    );
    const columns = [...stored].flatMap(([table, { cells }]) =>
      Object.keys(cells[0]!)
        .filter((column) => !isPlace(column))
        .map((column) => `${table} ${column}`),
    );
    expect(columns.filter((column) => !named.has(column))).toEqual([]);
  });
});

/** One cell of each, whose columns do not stand empty. */
const small: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  "counted-coverage": { rate: 0.13, eyes: 20 },
  "curve-coverage": { rate: 0.3, eyes: 20 },
  "model-coverage": { rate: 0.02, eyes: 20 },
  "unit-coverage": { rate: 0.13, eyes: 20 },
  "clustered-model-coverage": { bilateral: 1, rate: 0.3, eyes: 20 },
  "resampled-coverage": { rate: 0.13, eyes: 20 },
};

describe.each(coverageTables)("$name", (table) => {
  const { settings, cells } = stored.get(table.name)!;

  it("has every cell and every column, made under the settings that the code has", () => {
    expect(settings).toEqual(table.settings);
    const columns = [...Object.keys(table.at[0]!), ...Object.keys(table.columns)];
    for (const cell of cells) expect(Object.keys(cell)).toEqual(columns);
    expect(cells.map((cell) => placeOf(table, cell))).toEqual(table.at);
  });

  it("is what the code gives now, seed and all, in one small cell", () => {
    const at = small[table.name]!;
    const cell = cells.find((each) => isAt(each, at))!;
    const now = table.cell(at);
    for (const column of Object.keys(table.columns)) {
      if (cell[column] === null) expect(now[column] ?? null, column).toBeNull();
      else expectNear([now[column]!], [cell[column]!], 0.005);
    }
  }, 60_000);

  it("stands in words as in numbers", () => {
    const words = readFileSync(new URL(`${table.name}.md`, folder), "utf8");
    expect(words).toBe(inWords(table, cells));
  });
});

describe("what the tables show", () => {
  const cellsOf = (name: string) => stored.get(name)!.cells;
  const sharesOf = (cells: readonly Cell[], columns: readonly string[]) =>
    cells.flatMap((cell) => columns.flatMap((column) => cell[column] ?? []));
  const failures = ({ eyes, rate }: Cell) => eyes! * rate!;

  it("exact intervals at or above their level, exact tests at or below their size", () => {
    const counted = cellsOf("counted-coverage");
    const intervals = ["conditionalOddsRatio", "rateRatio", "observedExpected", "wilsonCorrected"];
    const tests = ["targetTest", "risksTest", "yates", "mcNemarExact"];
    expect(Math.min(...sharesOf(counted, intervals))).toBeGreaterThanOrEqual(0.95);
    expect(Math.max(...sharesOf(counted, tests))).toBeLessThanOrEqual(0.0501);
  });

  // 0.021 is three errors of a share of 5% among 1000 series
  it("models as they are shown near their level from 20 failures up", () => {
    const cells = cellsOf("model-coverage").filter((cell) => failures(cell) >= 20);
    const columns = ["coxShown", "logisticShown", "standardisedRate", "standardisedDifference"];
    const shares = sharesOf(cells, columns);
    expectNear(
      shares,
      shares.map(() => 0.95),
      0.021,
    );
  });

  it("errors by patient short of their level with few failures, the larger error near it", () => {
    const few = cellsOf("clustered-model-coverage").filter(
      (cell) => failures(cell) >= 4 && failures(cell) <= 7,
    );
    const mean = (columns: readonly string[]) => {
      const shares = sharesOf(few, columns);
      return shares.reduce((sum, share) => sum + share, 0) / shares.length;
    };
    expect(mean(["coxRobust", "logisticRobust"])).toBeLessThan(0.91);
    expect(mean(["coxLarger", "logisticLarger"])).toBeGreaterThan(0.94);
  });

  it("a pooled rate at its level where departments are alike, and under it where they differ", () => {
    const cells = cellsOf("unit-coverage").filter((cell) => failures(cell) >= 20);
    expectNear(
      sharesOf(cells, ["pooledEqual"]),
      cells.map(() => 0.95),
      0.021,
    );
    for (const { pooledApart } of cells) expect(pooledApart).toBeLessThan(0.93);
  });
});

interface Line {
  readonly table: string;
  readonly columns: readonly string[];
  readonly reason: string;
}

function readList(text: string): Map<string, Line[]> {
  const found = new Map<string, Line[]>();
  let name = "";
  for (const line of text.split("\n")) {
    if (line === "" || line.startsWith("#")) continue;
    if (!line.startsWith(" ")) {
      name = line;
      found.set(name, []);
      continue;
    }
    const [, table = "", rest = ""] = /^ {2}([\w-]+): (.+)$/.exec(line) ?? [];
    const columns = table === "none" ? [] : rest.split(", ");
    found.get(name)!.push({ table, columns, reason: rest });
  }
  return found;
}

function choicesOffered(): string[] {
  return [...poolingVocabulary.values()].flatMap(({ name, parameters }) =>
    parameters
      .filter((parameter) => choosing.includes(parameter.name))
      .flatMap((parameter) =>
        (parameter.choices ?? []).map((choice) => `${name} | ${parameter.name} | ${choice}`),
      ),
  );
}

function functionsOf(text: string): string[] {
  return Array.from(text.matchAll(/^export function (\w+)/gm), ([, name]) => name!);
}

function placeOf({ at }: CoverageTable, cell: Cell) {
  return Object.fromEntries(Object.keys(at[0]!).map((name) => [name, cell[name]]));
}

function isAt(cell: Cell, at: Readonly<Record<string, number>>): boolean {
  return Object.entries(at).every(([name, value]) => cell[name] === value);
}
