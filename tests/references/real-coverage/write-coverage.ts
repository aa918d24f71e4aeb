/**
 * Writes coverage.json and coverage.md, the table of real coverage and size, beside this file.
 *
 * To run it, from the root of the project (about half a minute):
 *   npx rolldown tests/references/real-coverage/write-coverage.ts --platform node --format esm \
 *     --file out/write-coverage.mjs && node out/write-coverage.mjs
 */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import {
  type CoverageCell,
  coverageCell,
  eyeCounts,
  failureRates,
  settings,
} from "./coverage-cells.ts";

const folder = join("tests", "references", "real-coverage");
const cells = failureRates.flatMap((rate) => eyeCounts.map((eyes) => coverageCell(eyes, rate)));
writeFileSync(join(folder, "coverage.json"), `${JSON.stringify({ settings, cells }, null, 1)}\n`);
writeFileSync(join(folder, "coverage.md"), describeCells(cells));

function describeCells(rows: readonly CoverageCell[]): string {
  const percent = (share: number) => (100 * share).toFixed(1);
  const error = 100 * Math.sqrt((0.95 * 0.05) / settings.replicates);
  const columns: readonly (readonly [title: string, value: (cell: CoverageCell) => string])[] = [
    ["rate", (cell) => `${100 * cell.rate}%`],
    ["eyes", (cell) => String(cell.eyes)],
    ["Wilson", (cell) => percent(cell.wilson)],
    ["Clopper–Pearson", (cell) => percent(cell.clopperPearson)],
    ["Poisson exact", (cell) => percent(cell.poissonExact)],
    ["Newcombe, equal rates", (cell) => percent(cell.newcombeEqual)],
    ["Newcombe, second doubled", (cell) => percent(cell.newcombeDoubled)],
    ["Kaplan–Meier log-log", (cell) => percent(cell.kaplanMeierLogLog)],
    ["log-rank", (cell) => percent(cell.logRankSize)],
    ["Fisher", (cell) => percent(cell.fisherSize)],
    ["chi-square", (cell) => percent(cell.chiSquareSize)],
  ];
  const line = (parts: readonly string[]) => `| ${parts.join(" | ")} |`;
  return `${[
    "# Real coverage of 95% intervals and real size of 5% tests, in percent",
    "",
    "Written by `write-coverage.ts`, which says how to run it; the model of the simulated eyes",
    "is in `coverage-cells.ts`. Wilson to Newcombe, Fisher and chi-square are exact sums over all",
    `outcomes. Kaplan–Meier (at day ${settings.day}) and log-rank are simulated:`,
    `${settings.replicates} series a cell, seed ${settings.seed}, error of the simulation about`,
    `${error.toFixed(1)}. Two groups have half the eyes each.`,
    "",
    line(columns.map(([title]) => title)),
    line(columns.map(() => "--:")),
    ...rows.map((cell) => line(columns.map(([, value]) => value(cell)))),
  ].join("\n")}\n`;
}
