/**
 * How quick the built page is in Chromium, against what it aims at: size, first paint, first
 * answer, from an edit to the drawn answer, and frames while a long sheet scrolls. Not a test:
 * times are not the same on two machines.
 *
 *     npx vite build
 *     npx rolldown tests/benchmarks/page/page.ts --platform node --format esm \
 *       --external playwright-core --external @sparticuz/chromium --file out/page-benchmark.mjs
 *     node out/page-benchmark.mjs
 */
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { gzipSync } from "node:zlib";
import { generateDemo } from "../../../data-demo/generate.ts";
import { openBrowser } from "../../browser/open-browser.ts";
import { cell, drop, openPage, settled } from "../../browser/opened-page.ts";
import { editTimes } from "./edit-times.ts";
import { firstTimes } from "./first-times.ts";
import { framesWhile } from "./frames-while.ts";
import { longNotebook } from "./long-notebook.ts";

/** What the page aims at: kilobytes and milliseconds. */
const aims = {
  "file, kB": 1500,
  "file by gzip, kB": 500,
  "first paint, ms": 1000,
  "first answer, ms": 1000,
  "edit to drawn answer, ms": 100,
  "edit to drawn chart, ms": 100,
  "frame while scrolling, 19 of 20 under, ms": 1000 / 60 + 1,
} as const;

const file = resolve("dist/page/index.html");
const bytes = readFileSync(file);
report("file, kB", [bytes.length / 1000]);
report("file by gzip, kB", [gzipSync(bytes, { level: 9 }).length / 1000]);

const browser = await openBrowser();
const first = await firstTimes(browser, file, 7);
report(
  "first paint, ms",
  first.map(({ paint }) => paint),
);
report(
  "first answer, ms",
  first.map(({ answer }) => answer),
);

const { page } = await openPage(browser, { file });
page.setDefaultTimeout(60_000);
const { csv } = generateDemo(7, { faults: false, eyes: 2000 });
await drop(page, "two-thousand.csv", csv);
await page.locator("book-header .facts", { hasText: "two-thousand.csv" }).waitFor();
await drop(page, "thirty.md", longNotebook(30));
await cell(page, "rate_1").locator("answer-sentence").waitFor();
await settled(page);
const edits = await editTimes(page, 9);
report(
  "edit to drawn answer, ms",
  edits.map(({ sentence }) => sentence),
);
report(
  "edit to drawn chart, ms",
  edits.map(({ chart }) => chart),
);

await drop(page, "two-hundred.md", longNotebook(200));
await cell(page, "rate_1").locator("answer-sentence").waitFor();
await settled(page);
const frames = (await framesWhile(page, { down: 120, count: 200 })).toSorted((a, b) => a - b);
report("frame while scrolling, 19 of 20 under, ms", [
  frames[Math.floor(0.95 * (frames.length - 1))] ?? Number.NaN,
]);
await browser.close();

/** Prints the median of what was measured, the longest, and the median's share of the aim. */
function report(of: keyof typeof aims, measured: readonly number[]): void {
  const sorted = measured.toSorted((one, other) => one - other);
  const median = sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
  const longest = sorted.length > 1 ? `, longest ${sorted.at(-1)?.toFixed(0)}` : "";
  const ratio = (median / aims[of]).toFixed(2);
  console.log(`${of}: ${median.toFixed(0)}${longest}; ${ratio} of the aim ${aims[of].toFixed(0)}`);
}
