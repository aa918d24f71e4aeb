import type { Value } from "../formula/value.ts";
import { formatProblem } from "../problem/format-problem.ts";
import { type Answered, sentenceText } from "../questions/answer.ts";
import type { CellState } from "../recalculation/cell-state.ts";
import type { ReportInput } from "./report-input.ts";

/**
 * Every cell by name: its numbers unrounded, eyes used and left out, cautions; or why it has none.
 * The same notebook, cases and version give the same text, byte for byte.
 */
export function resultsJson(input: ReportInput): string {
  const cells: Record<string, unknown> = Object.create(null);
  for (const { name, state } of input.cells) cells[name] = cellResult(state);
  return `${JSON.stringify(
    {
      made_by: `Holdfast ${input.version}`,
      notebook: input.title,
      ...(input.aggregates === undefined
        ? { cases: casesFacts(input) }
        : { aggregates: input.aggregates }),
      cells,
    },
    null,
    2,
  )}\n`;
}

/** What tells the files and their rows; no code of a person, no column, no problem. */
function casesFacts({ cases }: ReportInput) {
  const { file, sha256, laid, corrections } = cases;
  const { rowsRead, rowsKept, rowsLeftOut, queries } = cases;
  return {
    ...{ file, sha256, laid },
    ...(corrections === undefined ? {} : { corrections }),
    ...{ rowsRead, rowsKept, rowsLeftOut, queries },
  };
}

function cellResult(state: CellState): unknown {
  switch (state.status) {
    case "current":
      return valueResult(state.value);
    case "waiting":
      return { status: "waiting", waits_for: state.waitsFor };
    case "at fault":
      return { status: "at fault", problems: state.problems.map(formatProblem) };
    case "recalculating":
      return { status: "recalculating" };
  }
}

function valueResult(value: Value): unknown {
  if (value.kind === "thing" && value.of === "answer") {
    const { answer } = value.content as Answered;
    return {
      status: "current",
      question: answer.question,
      sentence: sentenceText(answer.sentence),
      used: answer.used,
      unit: answer.unit,
      left_out: answer.leftOut.map(({ reason, count }) => ({ reason, count })),
      cautions: answer.cautions.map(({ code }) => code),
      figures: answer.figures,
    };
  }
  return { status: "current", value: plainResult(value) };
}

/** A plain value in JSON's own kinds; a thing by the plain parts that can be read of it. */
function plainResult(value: Value): unknown {
  switch (value.kind) {
    case "missing":
      return null;
    case "number":
      return value.number;
    case "truth":
      return value.truth;
    case "text":
      return value.text;
    case "day":
      return { day: value.day };
    case "duration":
      return { amount: value.amount, unit: value.unit, days: value.days };
    case "list":
      return value.items.map(plainResult);
    case "thing": {
      const parts: Record<string, unknown> = Object.create(null);
      for (const [name, part] of value.parts) {
        if ("kind" in part) parts[name] = plainResult(part);
      }
      return { of: value.of, ...parts };
    }
  }
}
