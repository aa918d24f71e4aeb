/**
 * Rows a second and memory of reading, matching and checking a file of cases, beside a plain parse
 * of the same text by a library in the same run. Prints ratios; the aim is at most three times the
 * parse, growing no faster than the file. Not a test: times are not the same on two machines.
 *
 *     npx rolldown tests/benchmarks/cases-reading.ts --platform node --format esm \
 *       --file out/cases-reading.mjs && node --expose-gc out/cases-reading.mjs [rows ...]
 */
import { csvParseRows } from "d3-dsv";
import { generateDemo } from "../../data-demo/generate.ts";
import { readCases } from "../../src/cases/read-cases.ts";
import { caseFileText } from "./case-file-text.ts";

interface Measured {
  /** Median of the processor's time, in milliseconds: other work on the machine does not count. */
  readonly time: number;
  /** Heap held by what was read, in MB. */
  readonly memory: number;
}

const sizes = process.argv.slice(2).map(Number);

const compared = (sizes.length > 0 ? sizes : [1000, 100_000, 1_000_000]).map((rows) => {
  return { rows, ...compare(`${rows.toLocaleString("en")} rows x 25`, caseFileText(rows), rows) };
});
const [before, last] = compared.slice(-2);
if (before !== undefined && last !== undefined) sayGrowth(before, last);
const demo = generateDemo(7, { faults: false, eyes: 17_000 }).csv;
compare("the invented unit, x 63", demo, demo.split("\n").length - 2);

interface Compared {
  /** Milliseconds. */
  readonly parse: number;
  readonly read: number;
}

function compare(name: string, text: string, rows: number): Compared {
  const bytes = new TextEncoder().encode(text);
  const times = Math.max(1, Math.min(30, Math.round(300_000 / rows)));
  const parse = measure(times, () => csvParseRows(new TextDecoder().decode(bytes)));
  const read = measure(times, () => readCases({ name: "cases.csv", bytes }, { today: 21_000 }));
  const columns = [
    name.padEnd(28),
    `${(bytes.length / 1e6).toFixed(1)} MB`.padStart(10),
    `parse ${parse.time.toFixed(0)} ms ${parse.memory.toFixed(0)} MB`.padStart(24),
    `read ${read.time.toFixed(0)} ms ${read.memory.toFixed(0)} MB`.padStart(24),
    `${((rows / read.time) * 1000).toFixed(0)} rows/s`.padStart(16),
    `${(read.time / parse.time).toFixed(2)} times the parse`.padStart(24),
  ];
  process.stdout.write(`${columns.join("")}\n`);
  return { parse: parse.time, read: read.time };
}

/** Slopes of log time over log rows between two sizes: 1 is linear. */
function sayGrowth(
  one: Compared & { readonly rows: number },
  other: Compared & { readonly rows: number },
): void {
  const slope = (of: "parse" | "read") =>
    Math.log(other[of] / one[of]) / Math.log(other.rows / one.rows);
  const [parse, read] = [slope("parse").toFixed(2), slope("read").toFixed(2)];
  process.stdout.write(`time grows as rows to the power of: parse ${parse}, read ${read}\n`);
}

function measure(times: number, run: () => unknown): Measured {
  const taken: number[] = [];
  for (let warming = 1; warming < times; warming++) run();
  for (let i = 0; i < times; i++) {
    const start = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(start);
    taken.push((user + system) / 1000);
  }
  taken.sort((one, other) => one - other);
  return { time: taken[taken.length >> 1]!, memory: memoryOf(run) };
}

/** Measured apart: to collect garbage by force also throws away compiled code. */
function memoryOf(run: () => unknown): number {
  globalThis.gc?.();
  const before = process.memoryUsage().heapUsed;
  const held = [run()];
  globalThis.gc?.();
  const after = process.memoryUsage().heapUsed;
  return held.length === 1 ? (after - before) / 1e6 : 0;
}
