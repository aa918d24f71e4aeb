import { rowCount } from "../../cases/table.ts";
import type { GivenArguments, Outcome, Word } from "../../formula/vocabulary.ts";
import { numberGiven } from "../question.ts";
import { tableProblem } from "./table-problem.ts";
import { everyRow, tableGiven, tableParameter, tableThing, withRows } from "./table-value.ts";

/** The first so many rows as they stand; all where there are fewer. The others are left out. */
export const firstRows: Word = {
  name: "first_rows",
  meaning: "the first so many rows of a table",
  parameters: [
    tableParameter,
    {
      name: "number",
      meaning: "how many rows, a whole number",
      takes: "value",
      kinds: ["number"],
      required: true,
    },
  ],
  answers: "table",
  call: callFirstRows,
};

function callFirstRows(given: GivenArguments): Outcome {
  const value = tableGiven(given);
  const number = numberGiven(given, "number") ?? 0;
  if (!Number.isInteger(number) || number < 0) return { ok: false, problems: [notWhole(given)] };
  const rows = everyRow(value.table);
  const reason = `after the first ${Math.min(number, rowCount(value.table))}`;
  const leaving = [{ reason, rows: rows.slice(number), asked: true }];
  return { ok: true, value: tableThing(withRows(value, rows.slice(0, number), leaving)) };
}

function notWhole(given: GivenArguments) {
  const written = given.values.get("number");
  return tableProblem("whole-number-expected", written?.span ?? given.span, {
    message: "a number of rows is a whole number, 0 or more.",
    found: String(numberGiven(given, "number")),
    expected: "a number such as 20",
  });
}
