/**
 * Speed of the statistics against a general-purpose library (R's survival, cmprsk and stats) on the same
 * rows of this machine: how many times faster, the aim, and whether it is met with 15% for noise.
 *
 * Bundle and run with Node; the numbers of rows are the arguments (20000 unless given). Without R only
 * our own times are shown. Ends with status 1 when an aim is missed.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { aalenJohansen } from "../../src/statistics/aalen-johansen.ts";
import { coxRegression } from "../../src/statistics/cox-regression.ts";
import { kaplanMeier } from "../../src/statistics/kaplan-meier.ts";
import { logRank } from "../../src/statistics/log-rank.ts";
import { logisticRegression } from "../../src/statistics/logistic-regression.ts";
import { proportionalHazardsTest } from "../../src/statistics/proportional-hazards-test.ts";
import { type BenchmarkData, benchmarkCsv, benchmarkData } from "./statistics-data.ts";

interface Operation {
  readonly run: (data: BenchmarkData) => unknown;
  /** Times faster than the comparator at 20,000, 200,000 and 1,000,000 rows. */
  readonly aims: readonly [number, number, number];
}

const cox = ({ days, event, covariates }: BenchmarkData) =>
  coxRegression({ time: days, event, covariates });
const fits = new WeakMap<BenchmarkData, ReturnType<typeof cox>>();
const fitOf = (data: BenchmarkData) => {
  const fit = fits.get(data) ?? cox(data);
  fits.set(data, fit);
  return fit;
};

const operations: Readonly<Record<string, Operation>> = {
  kaplanMeier: {
    run: ({ days, event }) => kaplanMeier({ time: days, event }),
    aims: [50, 250, 350],
  },
  kaplanMeierContinuous: {
    run: ({ continuous, event }) => kaplanMeier({ time: continuous, event }),
    aims: [12, 12, 10],
  },
  logRank: {
    run: ({ days, event, group }) => logRank({ time: days, event, group }),
    aims: [120, 220, 250],
  },
  stratifiedLogRank: {
    run: ({ days, event, group, stratum }) =>
      logRank({ time: days, event, group, strata: stratum }),
    aims: [35, 100, 130],
  },
  logRankContinuous: {
    run: ({ continuous, event, group }) => logRank({ time: continuous, event, group }),
    aims: [20, 18, 13],
  },
  aalenJohansen: {
    run: ({ days, cause }) => aalenJohansen({ time: days, cause }),
    aims: [45, 150, 200],
  },
  cox: { run: cox, aims: [13, 16, 11] },
  coxFitAlone: { run: cox, aims: [2.2, 2.3, 1.5] },
  proportionalHazards: { run: (data) => proportionalHazardsTest(fitOf(data)), aims: [18, 22, 15] },
  logistic: {
    run: ({ outcome, covariates }) => logisticRegression({ outcome, covariates }),
    aims: [12, 15, 13],
  },
};

/** The mean processor time of runs over about half a second, after a few to warm up. */
function milliseconds(run: () => unknown): number {
  for (let warm = 0; warm < 5; warm++) run();
  const start = process.cpuUsage().user;
  let runs = 0;
  let spent = 0;
  for (; spent < 500_000 || runs < 3; runs++) {
    run();
    spent = process.cpuUsage().user - start;
  }
  return spent / runs / 1000;
}

function comparatorTimes(data: BenchmarkData): Record<string, number> {
  const folder = mkdtempSync(join(tmpdir(), "benchmark-"));
  const file = join(folder, "data.csv");
  writeFileSync(file, benchmarkCsv(data));
  const script = join("tests", "benchmarks", "statistics-comparator.R");
  const run = spawnSync("Rscript", ["--vanilla", script, file], { encoding: "utf8" });
  rmSync(folder, { recursive: true });
  return run.status === 0 ? JSON.parse(run.stdout) : {};
}

function report(rows: number): boolean {
  const data = benchmarkData(rows);
  const theirs = comparatorTimes(data);
  const which = rows >= 500_000 ? 2 : rows >= 100_000 ? 1 : 0;
  let isMet = true;
  console.log(`${rows} rows                  ours ms   theirs ms     times   aim`);
  for (const [name, { run, aims }] of Object.entries(operations)) {
    const ours = milliseconds(() => run(data));
    const times = (theirs[name] ?? Number.NaN) / ours;
    const aim = aims[which];
    const isMissed = times < aim * 0.85;
    isMet = isMet && !isMissed;
    const numbers = [
      ours.toFixed(3),
      (theirs[name] ?? Number.NaN).toFixed(1),
      times.toFixed(1),
      aim,
    ];
    const cells = numbers.map((value) => String(value).padStart(10)).join(" ");
    console.log(`${name.padEnd(24)}${cells}${isMissed ? "  missed" : ""}`);
  }
  return isMet;
}

const sizes = process.argv.slice(2).map(Number);
const met = (sizes.length > 0 ? sizes : [20_000]).map(report);
process.exitCode = met.every(Boolean) ? 0 : 1;
