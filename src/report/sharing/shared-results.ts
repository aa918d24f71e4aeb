import type { AnswerCell, Answered } from "../../questions/answer.ts";
import { sentenceText } from "../../questions/answer.ts";
import type { ReportedCell, ReportInput } from "../report-input.ts";
import { withheldText } from "./shared-table.ts";

/** The shared report for other programs: the tables as they are shown, null where withheld. */
export function sharedResultsJson({ version, title, sharing, cells }: ReportInput): string {
  const results: Record<string, unknown> = Object.create(null);
  for (const cell of cells) results[cell.name] = cellResult(cell);
  return `${JSON.stringify(
    {
      made_by: `Holdfast ${version}`,
      notebook: title,
      smallest_count: sharing?.threshold,
      cells: results,
    },
    null,
    2,
  )}\n`;
}

function cellResult({ state, setting, withheld = [] }: ReportedCell): unknown {
  const value = state.status === "current" ? state.value : undefined;
  if (value?.kind !== "thing" || value.of !== "answer") {
    return { ...(setting === undefined ? {} : { setting }), withheld };
  }
  const { question, sentence, table, cautions } = (value.content as Answered).answer;
  return {
    question,
    sentence: sentenceText(sentence),
    columns: table.columns.filter(({ kind }) => kind !== "mark").map(({ label }) => label),
    rows: table.rows.map((row) =>
      row.flatMap((cell, at) => (table.columns[at]?.kind === "mark" ? [] : [cellValue(cell)])),
    ),
    cautions: cautions.map(({ code }) => code),
    withheld,
  };
}

function cellValue({ text, value, limits }: AnswerCell): unknown {
  if (text === withheldText) return null;
  return limits === undefined ? (value ?? text) : { value, ...limits };
}
