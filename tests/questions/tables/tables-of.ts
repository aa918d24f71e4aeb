import { readFileSync } from "node:fs";
import type { CaseReading } from "../../../src/cases/case-reading.ts";
import { readCases } from "../../../src/cases/read-cases.ts";
import { type CellValue, type ColumnKind, tableOf } from "../../../src/cases/table.ts";
import { evaluate } from "../../../src/formula/evaluate.ts";
import { parse } from "../../../src/formula/parse.ts";
import type { Value } from "../../../src/formula/value.ts";
import { formatProblem } from "../../../src/problem/format-problem.ts";
import type { TableValue } from "../../../src/questions/tables/table-value.ts";
import { vocabulary } from "../../../src/questions/vocabulary.ts";
import { casesValue, workedOut } from "../ask.ts";

/** A column as a test writes it. */
export interface Column {
  readonly kind: ColumnKind;
  readonly values: readonly CellValue[];
  readonly unit?: string;
  readonly order?: readonly string[];
}

/** Cases of the given columns, the first row on line 2. */
export function casesOfColumns(
  columns: Readonly<Record<string, Column>> | Map<string, Column>,
): Value {
  const entries = columns instanceof Map ? [...columns] : Object.entries(columns);
  const length = entries[0]?.[1].values.length ?? 0;
  return casesValue({
    file: { name: "cases.csv", bytes: 0, encoding: "UTF-8", delimiter: "," },
    rowsRead: length,
    cases: tableOf(
      entries.map(([name, column]) => ({ name, label: name.replaceAll("_", " "), ...column })),
    ),
    lines: Array.from({ length }, (_, row) => row + 2),
    leftOut: [],
    matching: { columns: new Map(), values: new Map() },
    columns: [],
    problems: [],
  } satisfies CaseReading);
}

/** A published data set of tests/references/data as cases. */
export function published(name: string): Value {
  const bytes = new Uint8Array(readFileSync(`tests/references/data/${name}.csv`));
  return casesValue(readCases({ name: `${name}.csv`, bytes }));
}

/** What the independent script made of the same data: tests/references/r/table-verbs.R. */
export const reference = JSON.parse(readFileSync("tests/references/table-verbs.json", "utf8"));

/** The table that a working makes. */
export function tableFrom(working: string, cells: Readonly<Record<string, Value>>) {
  const value = workedOut(working, cells);
  if (value.kind !== "thing" || value.of !== "table") throw new Error(`${working} is no table`);
  const content = value.content as TableValue;
  return {
    ...content,
    value,
    part: (name: string) => {
      const part = value.parts.get(name);
      return part !== undefined && "kind" in part && part.kind === "number" ? part.number : null;
    },
    column: (name: string) =>
      content.table.columns.find((column) => column.name === name)?.values ?? null,
    out: content.leftOut.map(({ reason, lines }) => `${lines.length} ${reason}`),
  };
}

/** The problems of a working, as a reader sees them. */
export function faultsOf(working: string, cells: Readonly<Record<string, Value>>): string[] {
  const { tree, problems } = parse(working);
  if (tree === null) return problems.map(formatProblem);
  const held = new Map(Object.entries(cells));
  const outcome = evaluate(tree, { vocabulary, cell: (name) => held.get(name) });
  return outcome.ok ? [] : outcome.problems.map(formatProblem);
}
