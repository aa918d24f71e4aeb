/** Reading the data sets and the stored reference numbers of `tests/references`. */
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const references = join(dirname(fileURLToPath(import.meta.url)), "..", "references");

/** A CSV file without quoted fields as columns of text. */
export function readColumns(name: string): Record<string, string[]> {
  const text = readFileSync(join(references, "data", name), "utf8").trim();
  const [heading, ...rows] = text.split(/\r?\n/).map((line) => line.split(","));
  return Object.fromEntries(heading!.map((title, c) => [title, rows.map((row) => row[c]!)]));
}

/** The same with every column as numbers, NaN where a field is empty or no number. */
export function readNumbers(name: string): Record<string, number[]> {
  const columns = Object.entries(readColumns(name));
  return Object.fromEntries(
    columns.map(([title, values]) => [
      title,
      values.map((v) => (v === "" ? Number.NaN : Number(v))),
    ]),
  );
}

// biome-ignore lint/suspicious/noExplicitAny: reference files have many shapes
export type Reference = any;

/** The numbers that `r/<name>.R` made, as stored. */
export function readReference(name: string): Reference {
  return JSON.parse(readFileSync(join(references, `${name}.json`), "utf8"), asNumber);
}

/** Whether R with the named packages is installed here. */
export function hasR(...packages: string[]): boolean {
  const code = packages.map((p) => `stopifnot(requireNamespace("${p}", quietly = TRUE))`);
  return (
    spawnSync("Rscript", ["--vanilla", "-e", ["invisible(0)", ...code].join(";")]).status === 0
  );
}

/** Runs `r/<name>.R` now and returns the JSON that it prints. */
export function runReference(name: string): unknown {
  const run = spawnSync("Rscript", ["--vanilla", join("r", `${name}.R`)], {
    cwd: references,
    encoding: "utf8",
    maxBuffer: 1e8,
  });
  if (run.status !== 0) throw new Error(`${name}.R failed: ${run.stderr}`);
  return JSON.parse(run.stdout, asNumber);
}

/** R writes what JSON has no number for as text. */
function asNumber(_key: string, value: unknown): unknown {
  if (value === "NA" || value === "NaN") return Number.NaN;
  if (value === "Inf") return Infinity;
  return value === "-Inf" ? -Infinity : value;
}
