/**
 * From a CSV file to a Cox model as a whole process: the file is read, matched and checked as cases are, and
 * the model fitted, beside R's read.csv and coxph; both from the start of the process to its end.
 */
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readCases } from "../../src/cases/read-cases.ts";
import { columnNamed, type Table } from "../../src/cases/table.ts";
import { coxRegression } from "../../src/statistics/cox-regression.ts";

/** Reads the file and prints the coefficients. */
export function fileToCox(file: string): void {
  const bytes = new Uint8Array(readFileSync(file));
  const { cases } = readCases({ name: "data.csv", bytes });
  const covariates = cases.columns.filter(({ name }) => /^x\d+$/.test(name));
  const fit = coxRegression({
    time: numbers(cases, "days"),
    event: numbers(cases, "event"),
    covariates: covariates.map(({ name }) => numbers(cases, name)),
  });
  console.log(fit.coefficients.map(({ estimate }) => estimate).join(" "));
}

function numbers(cases: Table, name: string): Float64Array {
  return Float64Array.from(columnNamed(cases, name)!.values as number[]);
}

/** Milliseconds of both processes, the middle one of three each; theirs undefined without R. */
export function fileToCoxTimes(csv: string): { ours: number; theirs: number | undefined } {
  const script = join("tests", "benchmarks", "file-to-cox.R");
  return {
    ours: timeOf(process.execPath, [process.argv[1]!, "file-to-cox", csv])!,
    theirs: timeOf("Rscript", ["--vanilla", script, csv]),
  };
}

function timeOf(program: string, given: readonly string[]): number | undefined {
  const times: number[] = [];
  for (let k = 0; k < 3; k++) {
    const start = performance.now();
    const { status } = spawnSync(program, given, { encoding: "utf8" });
    if (status !== 0) return undefined;
    times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[1];
}
