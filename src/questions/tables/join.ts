import type {
  GivenArguments,
  Outcome,
  RowColumn,
  RowExpression,
  Word,
} from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { rowColumns } from "../answering/row-columns.ts";
import { textGiven } from "../question.ts";
import { joinedTable } from "./joined-table.ts";
import { matchRows } from "./match-rows.ts";
import { tableProblem } from "./table-problem.ts";
import {
  everyRow,
  type TableValue,
  tableGiven,
  tableParameter,
  tableThing,
} from "./table-value.ts";

export const joinedRows = ["all of the first", "matched only"] as const;

/**
 * The rows of one table with the columns of the rows of another that have the same key. A key may
 * come several times in one of the two, never in both. Rows whose key is missing match nothing.
 * Rows without a match are counted on both sides.
 */
export const join: Word = {
  name: "join",
  meaning: "two tables side by side where a column is the same, what has no match counted",
  parameters: [
    { ...tableParameter, name: "table", meaning: "the table whose rows are kept" },
    { ...tableParameter, name: "other", meaning: "the table whose columns are added" },
    {
      name: "on",
      meaning: "the columns that must be the same in both, such as patient, eye",
      takes: "row",
      kinds: [],
      required: true,
      repeated: true,
    },
    {
      name: "rows",
      meaning: "whether rows of the first table without a match stay",
      takes: "value",
      kinds: ["text"],
      required: false,
      choices: joinedRows,
      whenLeftOut: `"${joinedRows[0]}"`,
      byNameOnly: true,
    },
  ],
  answers: "table",
  call: callJoin,
};

function callJoin(given: GivenArguments): Outcome {
  const [first, other] = [tableGiven(given, "table"), tableGiven(given, "other")];
  const on = given.repeated as readonly RowExpression[];
  const keys = [first, other].map((value) => keysOf(value, on));
  const problems = keys.flatMap((each) => ("problems" in each ? each.problems : []));
  const [ours, theirs] = keys.flatMap((each) => ("columns" in each ? [each] : []));
  if (ours === undefined || theirs === undefined) return { ok: false, problems };
  const differ = on.flatMap((each, i) => kindsDiffer(each, ours.columns[i], theirs.columns[i]));
  if (differ.length > 0) return { ok: false, problems: differ };
  const matching = matchRows(ours.keys, theirs.keys);
  if ("twice" in matching) return { ok: false, problems: [manyToMany(on, matching.twice)] };
  const plan = {
    first,
    other,
    matching,
    on: on.map(({ text }) => text),
    matchedOnly: textGiven(given, "rows", joinedRows[0] as string) === joinedRows[1],
  };
  const { pairs, unmatched, unmatchedOther } = matching;
  return {
    ok: true,
    value: tableThing(joinedTable(plan), [
      ["matched", new Set(pairs.map(([row]) => row)).size],
      ["unmatched", unmatched.length],
      ["unmatched_other", unmatchedOther.length],
    ]),
  };
}

type Keys =
  | { readonly columns: readonly RowColumn[]; readonly keys: readonly (string | null)[] }
  | { readonly problems: readonly Problem[] };

/** The key of each row, equal where all its parts are; null where any part is missing. */
function keysOf({ table }: TableValue, on: readonly RowExpression[]): Keys {
  const bound = on.map((each) => each.over(rowColumns(table)));
  const problems = bound.flatMap((each) => (each.ok ? [] : each.problems));
  if (problems.length > 0) return { problems };
  const columns = bound.flatMap((each) => (each.ok ? [each.column] : []));
  const keys = everyRow(table).map((row) => {
    const parts = columns.map((column) => column.at(row));
    return parts.includes(null) ? null : JSON.stringify(parts);
  });
  return { columns, keys };
}

function kindsDiffer(
  { text, span }: RowExpression,
  ours: RowColumn | undefined,
  theirs: RowColumn | undefined,
): Problem[] {
  if (ours?.kind === theirs?.kind) return [];
  return [
    tableProblem("key-kinds-differ", span, {
      message: `${text} is a ${ours?.kind} in the first table and a ${theirs?.kind} in the other, so no row could match.`,
      found: text,
      expected: "a key of one kind in both",
    }),
  ];
}

function manyToMany(on: readonly RowExpression[], key: string): Problem {
  const span = { start: on[0]?.span.start ?? 0, end: on.at(-1)?.span.end ?? 0 };
  const name = on.map(({ text }) => text).join(", ");
  const found = (JSON.parse(key) as readonly unknown[]).join(", ");
  return tableProblem("many-to-many", span, {
    message: `${name} comes more than once in both tables, so that it is not clear which rows belong together.`,
    found,
    expected: "a key that comes once in one of the tables",
    remedy: "add a column to the key, or keep one row of each in one table first",
  });
}
