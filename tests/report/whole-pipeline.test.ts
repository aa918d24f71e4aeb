import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { run } from "../../src/command/run.ts";

/**
 * The whole way from the demo's file to every number, against the same way written again in R
 * (tests/references/r/whole-pipeline.R, packages survival and jsonlite), which shares nothing
 * with the product but the stated rules. Where R is not present the stored answer of that
 * script is compared with; where it is, the stored answer must be what the script gives now.
 */
interface GroupInR {
  readonly eyes: number;
  readonly failed: number;
  readonly known: number;
  readonly lower: number;
  readonly upper: number;
  readonly survival: readonly number[] | number;
  readonly standard_error: readonly number[] | number;
}

interface PipelineInR {
  readonly rows_read: number;
  readonly rows_kept: number;
  readonly all: GroupInR;
  readonly by_technique: Readonly<Record<string, GroupInR>>;
  readonly log_rank: {
    readonly chi_square: number;
    readonly observed: Readonly<Record<string, number>>;
    readonly expected: Readonly<Record<string, number>>;
  };
  readonly causes: Readonly<Record<string, number>>;
}

const cases = "data-demo/repairs.csv";
const script = "tests/references/r/whole-pipeline.R";
const stored: PipelineInR = JSON.parse(
  readFileSync("tests/references/whole-pipeline.json", "utf8"),
);
const live = spawnSync("Rscript", [script, cases], { encoding: "utf8" });
const hasR = live.status === 0;

// biome-ignore lint/suspicious/noExplicitAny: JSON of many shapes, looked into name by name.
let cells: any;
beforeAll(async () => {
  const into = mkdtempSync(join(tmpdir(), "holdfast-"));
  const silent = { say: () => {}, warn: () => {}, isTerminal: false, today: 20543 };
  expect(
    await run(["report", "tests/report/pipeline.notebook", cases, "--into", into], silent),
  ).toBe(0);
  cells = JSON.parse(readFileSync(join(into, "results.json"), "utf8")).cells;
});

const close = (actual: number, expected: number): void =>
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(expected)));

const listed = (value: readonly number[] | number): readonly number[] =>
  typeof value === "number" ? [value] : value;

describe("the demo, worked out twice", () => {
  test("rows and eyes", () => {
    const { figures } = cells.rows_and_eyes;
    expect(figures.rows_read).toBe(stored.rows_read);
    expect(figures.rows_kept).toBe(stored.rows_kept);
    expect(figures.eyes).toBe(stored.all.eyes);
  });

  test("counts and Wilson's interval (clustered where a patient gives two eyes), all eyes and by technique", () => {
    const { figures } = cells.how_often;
    const groups = new Map<string, typeof figures>(
      figures.groups.map((each: { group: string }) => [each.group, each]),
    );
    expect([...groups.keys()].sort()).toEqual(Object.keys(stored.by_technique).sort());
    const pairs: [typeof figures, GroupInR][] = [
      [figures, stored.all],
      ...Object.entries(stored.by_technique).map(
        ([name, group]) => [groups.get(name), group] as [typeof figures, GroupInR],
      ),
    ];
    for (const [ours, theirs] of pairs) {
      expect([ours.failed, ours.eyes]).toEqual([theirs.failed, theirs.known]);
      expect(ours.eyes + ours.not_known).toBe(theirs.eyes);
      if (theirs.known > 0) {
        close(ours.lower, theirs.lower);
        close(ours.upper, theirs.upper);
      }
    }
  });

  test("curves at 1, 3, 6 and 12 months with their error, clustered where a patient gives two eyes", () => {
    const { figures } = cells.when;
    const compare = (ours: typeof figures, theirs: GroupInR): void => {
      listed(theirs.survival).forEach((survival, position) => {
        close(ours.landmarks[position].attached, survival);
        close(
          ours.landmarks[position].standard_error,
          listed(theirs.standard_error)[position] ?? 0,
        );
      });
    };
    compare(figures, stored.all);
    for (const ours of figures.groups) compare(ours, stored.by_technique[ours.group] as GroupInR);
  });

  test("the log-rank test with its observed and expected", () => {
    const { figures } = cells.differ;
    close(figures.chi_square, stored.log_rank.chi_square);
    for (const { group, observed, expected } of figures.groups) {
      expect(observed).toBe(stored.log_rank.observed[group]);
      close(expected, stored.log_rank.expected[group] ?? Number.NaN);
    }
  });

  test("the causes", () => {
    const counts = cells.why.figures.causes.map((each: { cause: string; eyes: number }) => [
      each.cause,
      each.eyes,
    ]);
    expect(Object.fromEntries(counts)).toEqual(stored.causes);
  });

  test.skipIf(!hasR)("R gives now what is stored", () => {
    const { r: _, survival: __, ...now } = JSON.parse(live.stdout);
    expect(stored).toMatchObject(now);
  });
});
