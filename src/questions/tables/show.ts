import { rowCount } from "../../cases/table.ts";
import type { GivenArguments, RowExpression } from "../../formula/vocabulary.ts";
import type { AnswerCell, AnswerTable, Sentence } from "../answer.ts";
import { PickBook } from "../answering/answered-eyes.ts";
import { valueText } from "../answering/cell-text.ts";
import { rowColumns } from "../answering/row-columns.ts";
import { count, counted } from "../answering/wording.ts";
import { numberGiven, question, type Worked } from "../question.ts";
import { oneRow, tableAnswer } from "./table-answer.ts";
import { tablePreview } from "./table-preview.ts";
import { everyRow, type TableValue, tableGiven, tableParameter } from "./table-value.ts";

const usualRows = 20;
/** A page can draw no more, and nobody reads them. */
const mostRows = 500;

/** The rows themselves, with the columns asked for; the first cell of each leads to its lines. */
export const show = question(
  {
    name: "show",
    meaning: "the first rows of a table, with the columns asked for",
    asks: "Which rows are these?",
    example: "show(cases, operation_date, technique, age, first: 20)",
    parameters: [
      tableParameter,
      {
        name: "columns",
        meaning: "columns or workings over columns, with or without a name",
        takes: "row",
        kinds: [],
        required: false,
        repeated: true,
        freeNames: true,
        whenLeftOut: "all columns",
      },
      {
        name: "first",
        meaning: `how many rows, at most ${mostRows}`,
        takes: "value",
        kinds: ["number"],
        required: false,
        whenLeftOut: String(usualRows),
        byNameOnly: true,
      },
    ],
  },
  work,
);

function work(given: GivenArguments): Worked {
  const value = tableGiven(given);
  const asked = numberGiven(given, "first") ?? usualRows;
  const rows = everyRow(value.table).slice(0, Math.max(0, Math.min(Math.floor(asked), mostRows)));
  const workings = given.repeated as readonly RowExpression[];
  const bound = workings.map((working) => working.over(rowColumns(value.table)));
  const problems = bound.flatMap((each) => (each.ok ? [] : each.problems));
  if (problems.length > 0) return { problems };
  const all = { rows: rows.length, width: Number.POSITIVE_INFINITY };
  const columns = bound.flatMap((each) => (each.ok ? [each.column] : []));
  const table: AnswerTable =
    workings.length === 0
      ? tablePreview(value, all)
      : {
          columns: columns.map(({ kind, label }, i) => ({
            label: workings[i]?.name?.replaceAll("_", " ") ?? label,
            kind: kind === "number" ? "number" : "text",
          })),
          rows: rows.map((row) =>
            columns.map(({ kind, at }) => {
              const held = at(row);
              const text = valueText(held, kind);
              const cell = kind === "number" && typeof held === "number" ? held : text;
              return { text, value: held === null ? null : cell };
            }),
          ),
        };
  const names = bound.flatMap((each) => (each.ok ? each.names : []));
  return answer(value, table, names);
}

function answer(value: TableValue, table: AnswerTable, about: readonly string[]): Worked {
  const picks = new PickBook();
  const rows = table.rows.map((cells, row) => {
    const pick = picks.add(`row${row}`, `row ${row + 1}`, [row]);
    const [first, ...rest] = cells;
    if (first === undefined || pick === undefined) return cells;
    return [{ ...first, pick } satisfies AnswerCell, ...rest];
  });
  return tableAnswer(
    value,
    {
      question: "show",
      asks: "Which rows are these?",
      sentence: sentenceOf(value, table.rows.length),
      table: { ...table, rows },
      figures: { rows: rowCount(value.table), shown: table.rows.length },
      about,
    },
    picks,
  );
}

function sentenceOf(value: TableValue, shown: number): Sentence {
  const all = rowCount(value.table);
  const one = oneRow(value);
  if (all === 0) return [`There are no ${one}s in this table.`];
  if (shown === all) {
    return [all === 1 ? `The only ${one} is shown.` : `All ${counted(all, one)} are shown.`];
  }
  return [`The first ${count(shown)} of ${counted(all, one)} ${shown === 1 ? "is" : "are"} shown.`];
}
