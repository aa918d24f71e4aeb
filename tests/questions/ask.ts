import type { CaseReading } from "../../src/cases/case-reading.ts";
import { evaluate } from "../../src/formula/evaluate.ts";
import { parse } from "../../src/formula/parse.ts";
import type { Value } from "../../src/formula/value.ts";
import { formatProblem } from "../../src/problem/format-problem.ts";
import { type Answered, sentenceText } from "../../src/questions/answer.ts";
import { vocabulary } from "../../src/questions/vocabulary.ts";

/** A working's value over cells of a sheet; a fault throws its whole text. */
export function workedOut(working: string, cells: Readonly<Record<string, Value>> = {}): Value {
  const { tree, problems } = parse(working);
  if (tree === null) throw new Error(problems.map(formatProblem).join("\n"));
  const held = new Map(Object.entries(cells));
  const outcome = evaluate(tree, { vocabulary, cell: (name) => held.get(name) });
  if (!outcome.ok) throw new Error(outcome.problems.map(formatProblem).join("\n"));
  return outcome.value;
}

/** An answer's parts that tests look at. */
export function ask(working: string, cells: Readonly<Record<string, Value>>) {
  const value = workedOut(working, cells);
  if (value.kind !== "thing" || value.of !== "answer") throw new Error(`${working} is no answer`);
  const { answer, picks, record } = value.content as Answered;
  return {
    answer,
    sentence: sentenceText(answer.sentence),
    figures: answer.figures as Readonly<Record<string, never>>,
    /** Texts of the table; spaces that do not break read as spaces. */
    rows: answer.table.rows.map((row) => row.map(({ text }) => text.replaceAll("\u00a0", " "))),
    cautions: answer.cautions.map(({ code }) => code),
    /** Lines of the file behind a pick. */
    lines: (pick: string | undefined) =>
      record.describe(picks.get(pick ?? "")?.rows ?? []).rows.map((row) => row.lines),
  };
}

/** Cases as the sheet's `cases`. */
export function casesValue(reading: CaseReading): Value {
  return { kind: "thing", of: "cases", parts: new Map(), content: reading };
}
