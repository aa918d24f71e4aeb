/**
 * Speed of the statistics against a general-purpose library (R's survival, cmprsk and stats) on the same
 * rows of this machine: times faster, the aim, and whether it is met with 15% for noise; then how the
 * time grows with the rows.
 *
 * Medians on either side, so that what else the machine does counts little; it should do nothing else.
 * Bundle and run with Node; the numbers of rows are the arguments (2000, 20000, 200000 and 1000000 unless
 * given). Without R only our own times are shown. Ends with status 1 when an aim is not met.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileToCox, fileToCoxTimes } from "./file-to-cox.ts";
import { type BenchmarkData, benchmarkCsv, benchmarkData } from "./statistics-data.ts";
import {
  coxWithClusters,
  eightyExactLimits,
  fitOf,
  type Operation,
  operations,
} from "./statistics-operations.ts";

const NOISE = 0.15;

/** The median time of runs over about half a second, after as long to warm up. */
function milliseconds(run: () => unknown): number {
  timesOfRuns(run, 300);
  const times = timesOfRuns(run, 500).sort((a, b) => a - b);
  return times[times.length >> 1]!;
}

function timesOfRuns(run: () => unknown, most: number): number[] {
  const times: number[] = [];
  const start = performance.now();
  let before = start;
  while (before - start < most || times.length < 3) {
    run();
    const now = performance.now();
    times.push(now - before);
    before = now;
  }
  return times;
}

/** What R takes, by operation, nothing without R; and both from the file to a Cox model. */
function processTimes(data: BenchmarkData) {
  const folder = mkdtempSync(join(tmpdir(), "benchmark-"));
  const file = join(folder, "data.csv");
  writeFileSync(file, benchmarkCsv(data));
  const script = join("tests", "benchmarks", "statistics-comparator.R");
  const run = spawnSync("Rscript", ["--vanilla", script, file], { encoding: "utf8" });
  const theirs: Record<string, number> = run.status === 0 ? JSON.parse(run.stdout) : {};
  const whole = fileToCoxTimes(file);
  rmSync(folder, { recursive: true });
  return { theirs, whole };
}

interface Line {
  readonly name: string;
  readonly values: readonly (string | number)[];
  readonly isMet: boolean | null;
}

/** Prints a line of the table; null stands for no aim at this size. */
function print({ name, values, isMet }: Line): void {
  const cells = values.map((value) => String(value).padStart(10)).join(" ");
  const verdict = isMet === null ? "" : isMet ? "  met" : "  not met";
  console.log(`${name.padEnd(24)}${cells}${verdict}`);
}

/** Our times of each operation on so many rows, and whether every aim at this size is met. */
function timesOf(rows: number): { ours: Map<string, number>; isMet: boolean } {
  const data = benchmarkData(rows);
  const { theirs, whole } = processTimes(data);
  const ours = new Map<string, number>();
  console.log(`\n${rows} rows`.padEnd(25).concat("   ours ms  theirs ms      times       aim"));
  const verdicts = Object.entries(operations).map(([name, { run, aims }]) => {
    const time = milliseconds(() => run(data));
    ours.set(name, time);
    return printCompared({ name, rows, aims, ours: time, theirs: theirs[name] });
  });
  verdicts.push(
    printCompared({ name: "file to Cox, a process", rows, aims: FILE_TO_COX, ...whole }),
  );
  verdicts.push(printClusters(data, ours));
  return { ours, isMet: verdicts.every(Boolean) };
}

const FILE_TO_COX: Operation["aims"] = [6, 8, 9];

interface Compared {
  readonly name: string;
  readonly rows: number;
  readonly aims: Operation["aims"];
  readonly ours: number;
  readonly theirs: number | undefined;
}

/** Whether the aim at this size is met, or there is none. */
function printCompared({ name, rows, aims, ours, theirs }: Compared): boolean {
  const aim = rows < 20_000 ? null : aims[rows >= 500_000 ? 2 : rows >= 100_000 ? 1 : 0];
  const isMet = aim === null || theirs === undefined ? null : theirs / ours >= aim * (1 - NOISE);
  const times = theirs === undefined ? "-" : (theirs / ours).toFixed(1);
  print({ name, values: [ours.toFixed(3), theirs?.toFixed(1) ?? "-", times, aim ?? "-"], isMet });
  return isMet !== false;
}

/** What errors by patient add to a fit, as a share of it. */
function printClusters(data: BenchmarkData, ours: Map<string, number>): boolean {
  fitOf(data);
  const alone = ours.get("cox")!;
  const share = (milliseconds(() => coxWithClusters(data)) - alone) / alone;
  const most = data.rows >= 100_000 ? 0.8 : 0.5;
  const isMet = data.rows < 20_000 ? null : share <= most * (1 + NOISE);
  print({ name: "clusters, share of cox", values: ["", "", share.toFixed(2), most], isMet });
  return isMet !== false;
}

/** The least-squares slope of log time on log rows. */
function slopeOf(points: readonly (readonly [rows: number, time: number])[]): number {
  const logs = points.map(([rows, time]) => [Math.log(rows), Math.log(time)] as const);
  const mean = (k: 0 | 1) => logs.reduce((sum, point) => sum + point[k], 0) / logs.length;
  const [x, y] = [mean(0), mean(1)];
  const across = logs.reduce((sum, point) => sum + (point[0] - x) ** 2, 0);
  return logs.reduce((sum, point) => sum + (point[0] - x) * (point[1] - y), 0) / across;
}

function printGrowth(bySize: readonly { rows: number; ours: Map<string, number> }[]): boolean {
  const large = bySize.filter(({ rows }) => rows >= 20_000);
  if (large.length < 2) return true;
  console.log("\ngrowth".padEnd(25).concat("  from all  from 2e4       most"));
  let areMet = true;
  for (const [name, { slope: most }] of Object.entries(operations)) {
    const through = (sizes: typeof bySize) =>
      slopeOf(sizes.map(({ rows, ours }) => [rows, ours.get(name)!]));
    const isMet = through(large) <= most;
    areMet &&= isMet;
    print({ name, values: [through(bySize).toFixed(2), through(large).toFixed(2), most], isMet });
  }
  return areMet;
}

function printExactLimits(): boolean {
  const time = milliseconds(eightyExactLimits);
  const isMet = time <= 0.5 * (1 + NOISE);
  print({ name: "80 exact limits, ms", values: [time.toFixed(3), "", "", 0.5], isMet });
  return isMet;
}

function compareSizes(given: readonly number[]): void {
  const sizes = given.length > 0 ? given : [2000, 20_000, 200_000, 1_000_000];
  const bySize = sizes.map((rows) => ({ rows, ...timesOf(rows) }));
  console.log("");
  const verdicts = [printExactLimits(), printGrowth(bySize), ...bySize.map(({ isMet }) => isMet)];
  process.exitCode = verdicts.every(Boolean) ? 0 : 1;
}

const [first, file] = process.argv.slice(2);
if (first === "file-to-cox") fileToCox(file!);
else compareSizes(process.argv.slice(2).map(Number));
