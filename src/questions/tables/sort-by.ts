import type {
  GivenArguments,
  Outcome,
  RowColumn,
  RowExpression,
  Word,
} from "../../formula/vocabulary.ts";
import { rowColumns } from "../answering/row-columns.ts";
import { inOrder } from "../answering/value-order.ts";
import { textGiven } from "../question.ts";
import { everyRow, tableGiven, tableParameter, tableThing, withRows } from "./table-value.ts";

const orders = ["ascending", "descending"] as const;

/**
 * All rows in the order of a column, ties in the order of the next one, then as they stood. Codes
 * follow the order of their list. Rows where it is missing come last, whichever the order.
 */
export const sortBy: Word = {
  name: "sort_by",
  meaning: "all rows in the order of one or more columns, what is missing last",
  parameters: [
    tableParameter,
    {
      name: "columns",
      meaning: "the columns or workings over columns to sort by",
      takes: "row",
      kinds: [],
      required: true,
      repeated: true,
    },
    {
      name: "order",
      meaning: "which end comes first",
      takes: "value",
      kinds: ["text"],
      required: false,
      choices: orders,
      whenLeftOut: '"ascending"',
      byNameOnly: true,
    },
  ],
  answers: "table",
  call: callSortBy,
};

function callSortBy(given: GivenArguments): Outcome {
  const value = tableGiven(given);
  const bound = (given.repeated as readonly RowExpression[]).map((each) =>
    each.over(rowColumns(value.table)),
  );
  const problems = bound.flatMap((each) => (each.ok ? [] : each.problems));
  if (problems.length > 0) return { ok: false, problems };
  const columns = bound.flatMap((each) => (each.ok ? [each.column] : []));
  const sign = textGiven(given, "order", orders[0] as string) === "descending" ? -1 : 1;
  const compares = columns.map((column) => rowsInOrder(column, sign));
  const rows = everyRow(value.table).sort((one, other) => {
    for (const compare of compares) {
      const difference = compare(one, other);
      if (difference !== 0) return difference;
    }
    return 0;
  });
  return { ok: true, value: tableThing(withRows(value, rows, [])) };
}

function rowsInOrder(column: RowColumn, sign: 1 | -1): (one: number, other: number) => number {
  const compare = inOrder(column.order);
  return (one, other) => {
    const [first, second] = [column.at(one), column.at(other)];
    if (first === null || second === null) return Number(first === null) - Number(second === null);
    return sign * compare(first, second);
  };
}
