/**
 * Writes clustered-coverage.json and clustered-coverage.md, the third table of real coverage, beside this
 * file.
 *
 * To run it, from the root of the project (some minutes):
 *   npx rolldown tests/references/real-coverage/write-clustered-coverage.ts --platform node --format esm \
 *     --file out/write-clustered-coverage.mjs && node out/write-clustered-coverage.mjs
 */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import {
  bilateralShares,
  type ClusteredCell,
  clusteredCell,
  columns,
  settings,
} from "./clustered-cells.ts";
import { eyeCounts, failureRates } from "./coverage-cells.ts";

const folder = join("tests", "references", "real-coverage");
const cells = bilateralShares.flatMap((bilateral) =>
  failureRates.flatMap((rate) => eyeCounts.map((eyes) => clusteredCell({ bilateral, rate, eyes }))),
);
const json = JSON.stringify({ settings, cells }, null, 1);
writeFileSync(join(folder, "clustered-coverage.json"), `${json}\n`);
writeFileSync(join(folder, "clustered-coverage.md"), describeCells(cells));

function describeCells(rows: readonly ClusteredCell[]): string {
  const titles: Readonly<Record<(typeof columns)[number], string>> = {
    bilateral: "patients with both eyes",
    eyes: "eyes",
    rate: "rate",
    wilson: "Wilson",
    clusteredProportion: "share, clustered",
    kaplanMeier: "Kaplan–Meier",
    clusteredKaplanMeier: "Kaplan–Meier, clustered",
    newcombe: "difference, Newcombe",
    clusteredDifference: "difference, clustered",
  };
  const shown = (share: number | null) => (share === null ? "–" : (100 * share).toFixed(1));
  const cellOf = (cell: ClusteredCell, name: (typeof columns)[number]) =>
    name === "eyes" ? String(cell.eyes) : shown(cell[name]);
  const line = (parts: readonly string[]) => `| ${parts.join(" | ")} |`;
  return `${[
    "# Real coverage of 95% intervals with two eyes of some patients, in percent",
    "",
    "Written by `write-clustered-coverage.ts`, which says how to run it; what is drawn is in",
    `\`clustered-cells.ts\`. All simulated: ${settings.replicates} series a cell, seed ${settings.seed}, error`,
    `about 0.5. Eyes of a patient are correlated ${settings.correlation} on a normal scale; limits of the`,
    `Kaplan–Meier estimate are log-log, at day ${settings.day}; two groups have every other eye each and`,
    "equal rates.",
    "",
    line(columns.map((name) => titles[name])),
    line(columns.map(() => "--:")),
    ...rows.map((cell) => line(columns.map((name) => cellOf(cell, name)))),
  ].join("\n")}\n`;
}
