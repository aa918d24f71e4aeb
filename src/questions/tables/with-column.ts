import { columnNamed, type Table, type TableColumn, withColumn } from "../../cases/table.ts";
import type {
  GivenArguments,
  Outcome,
  RowColumn,
  RowExpression,
  Word,
} from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { rowColumns } from "../answering/row-columns.ts";
import { tableProblem } from "./table-problem.ts";
import { everyRow, tableGiven, tableParameter, tableThing } from "./table-value.ts";

/**
 * Columns worked out from others, each under the name it is given by; a later one sees those
 * before it. A name that the table has already is worked out anew.
 */
export const withColumnWord: Word = {
  name: "with_column",
  meaning: "the table with columns worked out from others, each given by its name",
  parameters: [
    tableParameter,
    {
      name: "columns",
      meaning: "a name and its working, such as wait: operation_date - symptom_date",
      takes: "row",
      kinds: [],
      required: true,
      repeated: true,
      freeNames: true,
    },
  ],
  answers: "table",
  call: callWithColumn,
};

function callWithColumn(given: GivenArguments): Outcome {
  const value = tableGiven(given);
  const workings = given.repeated as readonly RowExpression[];
  let { table } = value;
  for (const working of workings) {
    const made = madeColumn(table, working);
    if ("problems" in made) return { ok: false, problems: made.problems };
    table = withColumn(table, made.column);
  }
  const eyes = value.eyes === undefined ? {} : { eyes: { ...value.eyes, table } };
  return { ok: true, value: tableThing({ ...value, table, ...eyes }) };
}

type Made =
  | { readonly column: Omit<TableColumn, "id"> }
  | { readonly problems: readonly Problem[] };

function madeColumn(table: Table, working: RowExpression): Made {
  const { name, text, span } = working;
  if (name === undefined) return { problems: [withoutName(text, span)] };
  const bound = working.over(rowColumns(table));
  if (!bound.ok) return { problems: bound.problems };
  const label = name.replaceAll("_", " ");
  const copied = columnNamed(table, text);
  if (copied !== undefined) return { column: { ...copied, name, label } };
  const values = everyRow(table).map((row) => bound.column.at(row));
  return { column: { name, label, ...columnKind(bound.column), values } };
}

function columnKind({ kind, order }: RowColumn): Pick<TableColumn, "kind" | "unit" | "order"> {
  const ordered = order === undefined ? {} : { order };
  if (kind === "duration") return { kind: "number", unit: "days" };
  return kind === "text" && order !== undefined
    ? { kind: "code", ...ordered }
    : { kind, ...ordered };
}

function withoutName(text: string, span: RowExpression["span"]): Problem {
  return tableProblem("column-without-name", span, {
    message: "a column needs a name.",
    found: text,
    expected: `a name before the working, such as new_column: ${text}`,
  });
}
