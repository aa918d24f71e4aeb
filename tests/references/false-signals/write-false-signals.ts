/**
 * Writes false-signals.json and false-signals.md, how often the questions about people signal where
 * nothing has changed, beside this file.
 *
 * To run it, from the root of the project (some minutes):
 *   npx rolldown tests/references/false-signals/write-false-signals.ts --platform node --format esm \
 *     --file out/write-false-signals.mjs && node out/write-false-signals.mjs
 */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { settings } from "./drawn-unit.ts";
import { type LookedAt, lookedAt, type Watched } from "./looked-at.ts";

const folder = join("tests", "references", "false-signals");
const units = Array.from({ length: settings.units }, (_, unit) => lookedAt(unit));
const rows = [
  watchedRow("doubled odds, expected from the true risks", units, (unit) => unit.published.worse),
  watchedRow("halved odds, expected from the true risks", units, (unit) => unit.published.better),
  watchedRow("doubled odds, expected from a model of others", units, (unit) => unit.modelled.worse),
  watchedRow("halved odds, expected from a model of others", units, (unit) => unit.modelled.better),
  watchedRow("doubled odds noticed where they are doubled", units, (unit) => unit.doubled),
  watchedRow("14% called reached against 7% and 14%", units, (unit) => unit.reached),
  shareRow("a surgeon outside the 95% funnel limits", (unit) => unit.outside95, 0.05),
  shareRow("a surgeon outside the 99.8% funnel limits", (unit) => unit.outside998, 0.002),
  shareRow("an interval of observed over expected without 1", (unit) => unit.apart, 0.05),
];
writeFileSync(
  join(folder, "false-signals.json"),
  `${JSON.stringify({ settings, rows, first: units.slice(0, 4) }, null, 1)}\n`,
);
writeFileSync(join(folder, "false-signals.md"), described());

export interface SignalRow {
  readonly what: string;
  readonly series: number;
  /** Mean probability that the answers state, or the level at most. */
  readonly stated: number;
  readonly observed: number;
  /** Of the observed share, were the stated one true. */
  readonly standardError: number;
}

function watchedRow(
  what: string,
  all: readonly LookedAt[],
  of: (unit: LookedAt) => Watched,
): SignalRow {
  const stated = all.reduce((sum, unit) => sum + of(unit).stated, 0) / all.length;
  const observed = all.filter((unit) => of(unit).signalled).length / all.length;
  return { what, series: all.length, stated, observed, standardError: errorOf(stated, all.length) };
}

function shareRow(what: string, of: (unit: LookedAt) => number, level: number): SignalRow {
  const series = units.length * settings.surgeons.length;
  const observed = units.reduce((sum, unit) => sum + of(unit), 0) / series;
  return { what, series, stated: level, observed, standardError: errorOf(level, series) };
}

function errorOf(share: number, series: number): number {
  return Math.sqrt((share * (1 - share)) / series);
}

function described(): string {
  const percent = (share: number) => (100 * share).toFixed(1);
  const line = (parts: readonly string[]) => `| ${parts.join(" | ")} |`;
  const { units: number, eyesEach, surgeons, runLength, seed } = settings;
  return `${[
    "# How often a signal comes where nothing has changed, in percent",
    "",
    "Written by `write-false-signals.ts`, which says how to run it; the invented units are in",
    `\`drawn-unit.ts\`: ${number} units of ${surgeons.length} surgeons with ${eyesEach} eyes each, all with the same odds for`,
    `the same eye, seed ${seed}. CUSUM limits are for a run length of ${runLength}; one surgeon a unit is`,
    "watched. The questions are asked as a sheet asks them. For the funnel and the ratios the level is",
    "what is stated at most: counts are whole. The funnel's limits lie between whole counts, and are not exact.",
    "",
    line(["signal", "series", "stated", "observed", "standard error"]),
    line(["---", "--:", "--:", "--:", "--:"]),
    ...rows.map(({ what, series, stated, observed, standardError }) =>
      line([what, String(series), percent(stated), percent(observed), percent(standardError)]),
    ),
  ].join("\n")}\n`;
}
