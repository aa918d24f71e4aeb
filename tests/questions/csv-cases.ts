import { readFileSync } from "node:fs";
import type { CaseReading } from "../../src/cases/case-reading.ts";
import { type CellValue, tableOf } from "../../src/cases/table.ts";
import { casesOf } from "../outcomes/cases-of.ts";

/**
 * An open data set as cases: a column of numbers where every value is one, else of texts; empty is
 * missing. Names are kept but for dots, which become underscores, and those given another name.
 */
export function csvCases(file: string, names: Readonly<Record<string, string>> = {}): CaseReading {
  const text = readFileSync(`tests/references/data/${file}`, "utf8");
  const [headings = [], ...lines] = text
    .trim()
    .split(/\r?\n/)
    .map((line) => line.split(",").map((cell) => cell.replace(/^"(.*)"$/, "$1")));
  const columns = headings.map((heading, column) => {
    const written = lines.map((line) => line[column] ?? "");
    const isNumber = written.every((cell) => cell === "" || Number.isFinite(Number(cell)));
    const values = written.map(
      (cell): CellValue => (cell === "" ? null : isNumber ? Number(cell) : cell),
    );
    const name = names[heading] ?? heading.replaceAll(".", "_");
    return {
      name,
      label: name.replaceAll("_", " "),
      kind: isNumber ? ("number" as const) : ("code" as const),
      values,
    };
  });
  const empty = casesOf([]);
  return {
    ...empty,
    rowsRead: lines.length,
    cases: tableOf(columns),
    lines: lines.map((_, row) => row + 2),
  };
}
