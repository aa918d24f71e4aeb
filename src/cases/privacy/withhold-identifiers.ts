import type { Problem } from "../../problem/problem.ts";
import type { ColumnPlan } from "../match-columns.ts";
import type { RawTable } from "../raw-table.ts";
import type { WrittenColumn } from "../written-column.ts";
import { withoutIdentifiers } from "./identifiers-in-text.ts";

export interface WithheldTable {
  readonly table: RawTable;
  readonly problems: readonly Problem[];
}

/**
 * Takes identifiers out of the columns of text that are kept: the table has `[withheld]` in their
 * place, and a query names each line. Ids of rows stay as they are.
 */
export function withholdIdentifiers(table: RawTable, plans: readonly ColumnPlan[]): WithheldTable {
  const columns = [...table.columns];
  const problems = plans.filter(isText).flatMap(({ position, spec }) => {
    const left = textsLeft(columns[position]!);
    if (left.size === 0) return [];
    columns[position] = columns[position]!.with(left);
    return [...left.keys()].map((row) => withheldAt(table.lines[row]!, spec!.name));
  });
  return { table: problems.length === 0 ? table : { ...table, columns }, problems };
}

/** By row, what is left of a text that had an identifier in it. */
function textsLeft(written: WrittenColumn): ReadonlyMap<number, string> {
  const rows = written.rowsWhere((value) => withoutIdentifiers(value) !== value);
  return new Map(rows.map((row) => [row, withoutIdentifiers(written.at(row)!)]));
}

/** Those for whom codes stand. */
const coded: ReadonlySet<string> = new Set(["case", "patient", "surgeon", "supervisor"]);

function isText({ spec, isField }: ColumnPlan): boolean {
  if (spec === undefined) return false;
  if (isField) return spec.kind === "text" && !coded.has(spec.name);
  return spec.kind === "text" || spec.kind === "code" || spec.kind === "codes";
}

function withheldAt(line: number, field: string): Problem {
  return {
    code: "identifier-in-text",
    severity: "query",
    place: { line, field },
    message:
      "what can tell who the patient is stood in this text (a number, an address, a date of birth); it was taken out.",
    expected: "findings in words",
    remedy: "take it out of the file too",
  };
}
