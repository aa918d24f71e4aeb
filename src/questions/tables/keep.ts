import type { GivenArguments, Outcome, RowExpression, Word } from "../../formula/vocabulary.ts";
import { rowColumns } from "../answering/row-columns.ts";
import { tableProblem } from "./table-problem.ts";
import {
  everyRow,
  type TableValue,
  tableGiven,
  tableParameter,
  tableThing,
  withRows,
} from "./table-value.ts";

/** The rows that fit a condition. Where it is missing the row is left out and counted apart. */
export const keep: Word = siftingWord("keep", "the rows that fit a condition", true);

/** The rows that do not fit a condition. Where it is missing the row is left out as well. */
export const leaveOut: Word = siftingWord(
  "leave_out",
  "the rows that do not fit a condition",
  false,
);

function siftingWord(name: string, meaning: string, wanted: boolean): Word {
  return {
    name,
    meaning: `${meaning}; those where it is missing are counted apart`,
    parameters: [
      tableParameter,
      {
        name: "where",
        meaning: "the condition, over the columns",
        takes: "row",
        kinds: ["truth"],
        required: true,
      },
    ],
    answers: "table",
    call: (given) => sift(given, wanted),
  };
}

function sift(given: GivenArguments, wanted: boolean): Outcome {
  const value = tableGiven(given);
  const where = given.rows.get("where");
  if (where === undefined) throw new Error("called without a condition");
  const bound = where.over(rowColumns(value.table));
  if (!bound.ok) return bound;
  const { column } = bound;
  if (column.kind !== "truth") return { ok: false, problems: [notACondition(where)] };
  return {
    ok: true,
    value: tableThing(sifted(value, { where: where.text, wanted, at: column.at })),
  };
}

interface Sieve {
  readonly where: string;
  readonly wanted: boolean;
  readonly at: (row: number) => unknown;
}

function sifted(value: TableValue, { where, wanted, at }: Sieve): TableValue {
  const rows = everyRow(value.table);
  return withRows(
    value,
    rows.filter((row) => at(row) === wanted),
    [
      {
        reason: `${wanted ? "outside" : "within"} the condition ${where}`,
        rows: rows.filter((row) => at(row) === !wanted),
        asked: true,
      },
      {
        reason: silentReason(where),
        rows: rows.filter((row) => at(row) === null),
        asked: false,
      },
    ],
  );
}

/** "not recorded whether age >= 40"; of a column that holds or not, "event not recorded". */
function silentReason(where: string): string {
  return /^[\p{L}\p{N}_]+$/u.test(where)
    ? `${where.replaceAll("_", " ")} not recorded`
    : `not recorded whether ${where}`;
}

function notACondition({ text, span }: RowExpression) {
  return tableProblem("condition-expected", span, {
    message: `${text} is not a condition.`,
    found: text,
    expected: "something that holds or not in each row, such as age >= 60",
  });
}
