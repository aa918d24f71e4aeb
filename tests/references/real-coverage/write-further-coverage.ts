/**
 * Writes further-coverage.json and further-coverage.md, the second table of real coverage and size,
 * beside this file.
 *
 * To run it, from the root of the project (some minutes):
 *   npx rolldown tests/references/real-coverage/write-further-coverage.ts --platform node --format esm \
 *     --file out/write-further-coverage.mjs && node out/write-further-coverage.mjs
 */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { eyeCounts, failureRates } from "./coverage-cells.ts";
import { columns, type FurtherCell, furtherCell, settings } from "./further-cells.ts";

const folder = join("tests", "references", "real-coverage");
const cells = failureRates.flatMap((rate) => eyeCounts.map((eyes) => furtherCell(eyes, rate)));
const json = JSON.stringify({ settings, cells }, null, 1);
writeFileSync(join(folder, "further-coverage.json"), `${json}\n`);
writeFileSync(join(folder, "further-coverage.md"), describeCells(cells));

function describeCells(rows: readonly FurtherCell[]): string {
  const titles: Readonly<Record<(typeof columns)[number], string>> = {
    eyes: "eyes",
    rate: "rate",
    midP: "mid-P",
    scoreRatio: "risk ratio, score",
    scoreOddsRatio: "odds ratio, score",
    katzRatio: "risk ratio, log",
    mantelHaenszelDifference: "difference, Mantel–Haenszel",
    incidence: "incidence, log-log",
    restrictedMean: "restricted mean",
    coxWald: "Cox, Wald",
    coxUnknown: "(no Cox fit)",
    firthProfile: "Firth, profile",
    deLong: "c-statistic, DeLong",
    deLongUnknown: "(no error)",
    rocLogit: "c-statistic, logit",
    rocScore: "c-statistic, score",
    rocUnknown: "(no c-statistic)",
    deLongApart: "0.76, DeLong",
    rocLogitApart: "0.76, logit",
    rocScoreApart: "0.76, score",
    stratifiedLogRank: "stratified log-rank",
    gehan: "Gehan",
    trend: "log-rank trend",
    gray: "Gray",
    cochranArmitage: "Cochran–Armitage",
    coxLikelihoodRatio: "Cox, likelihood ratio",
    firthTest: "Firth, likelihood ratio",
  };
  const shown = (share: number | null) => (share === null ? "–" : (100 * share).toFixed(1));
  const cellOf = (cell: FurtherCell, name: (typeof columns)[number]) =>
    name === "eyes" ? String(cell.eyes) : shown(cell[name]);
  const line = (parts: readonly string[]) => `| ${parts.join(" | ")} |`;
  return `${[
    "# Real coverage of further 95% intervals and real size of further 5% tests, in percent",
    "",
    "Written by `write-further-coverage.ts`, which says how to run it; what is drawn is in",
    "`further-cells.ts` and `simulated-eyes.ts`. Mid-P to the Mantel–Haenszel difference are exact sums,",
    "in two groups of half the eyes with equal rates; the rest is simulated:",
    `${settings.replicates} series a cell, seed ${settings.seed}, error about 0.7. Shares are of the series in`,
    "which the interval or the test exists. From stratified log-rank on the numbers are sizes of tests.",
    "",
    line(columns.map((name) => titles[name])),
    line(columns.map(() => "--:")),
    ...rows.map((cell) => line(columns.map((name) => cellOf(cell, name)))),
  ].join("\n")}\n`;
}
