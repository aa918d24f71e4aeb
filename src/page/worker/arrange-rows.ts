import type { CaseReading } from "../../cases/case-reading.ts";
import { type CellValue, columnNamed } from "../../cases/table.ts";
import { evaluate } from "../../formula/evaluate.ts";
import { parse } from "../../formula/parse.ts";
import { rowExpression } from "../../formula/row-expression.ts";
import type { Scope } from "../../formula/scope.ts";
import type { RowColumn } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { rowColumns } from "../../questions/answering/row-columns.ts";
import type { Arrangement } from "../cases-protocol.ts";
import { locale } from "../labels/locale.ts";

/** Rows of the cases that are shown, in their order. */
export interface ArrangedCases {
  readonly rows: readonly number[];
  /** Rows of which it is missing whether they fit the condition. */
  readonly undecided: number;
  /** What is wrong with the condition; then it was left aside. */
  readonly problems: readonly Problem[];
}

/** Which rows fit an arrangement, in its order: equal ones as in the file, missing ones last. */
export function arrangeRows(
  reading: CaseReading,
  { sort, where = "", lines }: Arrangement,
  scope: Scope,
): ArrangedCases {
  const wanted = lines && new Set(lines);
  const all = [...reading.lines.keys()];
  const behind = wanted ? all.filter((row) => wanted.has(reading.lines[row]!)) : all;
  const sifted =
    where.trim() === "" ? keepAll(behind) : sift(reading, { rows: behind, where }, scope);
  const column = sort && columnNamed(reading.cases, sort.column);
  if (column === undefined) return sifted;
  const order = compareIn(column.values, { order: column.order, descending: sort!.descending });
  return { ...sifted, rows: sifted.rows.toSorted(order) };
}

function keepAll(rows: readonly number[]): ArrangedCases {
  return { rows, undecided: 0, problems: [] };
}

interface Sifting {
  readonly rows: readonly number[];
  readonly where: string;
}

function sift(reading: CaseReading, { rows, where }: Sifting, scope: Scope): ArrangedCases {
  const condition = conditionOf(reading, where, scope);
  if (!condition.ok) return { ...keepAll(rows), problems: condition.problems };
  const { at } = condition.column;
  return {
    rows: rows.filter((row) => at(row) === true),
    undecided: rows.filter((row) => at(row) === null).length,
    problems: [],
  };
}

type Condition =
  | { readonly ok: true; readonly column: RowColumn }
  | { readonly ok: false; readonly problems: readonly Problem[] };

function conditionOf(reading: CaseReading, where: string, scope: Scope): Condition {
  const { tree, problems } = parse(where);
  if (tree === null || problems.length > 0) return { ok: false, problems };
  const bound = rowExpression(tree, scope, evaluate).over(rowColumns(reading.cases));
  if (!bound.ok) return bound;
  if (bound.column.kind === "truth") return bound;
  return { ok: false, problems: [notACondition(where)] };
}

function notACondition(where: string): Problem {
  return {
    code: "condition-expected",
    severity: "stop",
    place: { span: { start: 0, end: where.length } },
    message: "this is no condition.",
    found: where,
    expected: "something that holds or not in each row, such as age >= 60",
  };
}

interface Order {
  readonly order: readonly string[] | undefined;
  readonly descending: boolean;
}

function compareIn(values: readonly CellValue[], { order, descending }: Order) {
  const ranks = new Map(order?.map((code, rank) => [code, rank]));
  const worth = (value: CellValue) =>
    (typeof value === "string" ? ranks.get(value) : undefined) ?? value;
  const sign = descending ? -1 : 1;
  return (one: number, other: number): number => {
    const [first, second] = [values[one] ?? null, values[other] ?? null];
    if (first === null || second === null) {
      return first === second ? one - other : first === null ? 1 : -1;
    }
    return sign * compare(worth(first), worth(second)) || one - other;
  };
}

function compare(one: CellValue, other: CellValue): number {
  const isText = typeof one === "string" || typeof other === "string";
  if (isText || Array.isArray(one)) return collator.compare(String(one), String(other));
  return Number(one) - Number(other);
}

const collator = new Intl.Collator(locale, { numeric: true });
