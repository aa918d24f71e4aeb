import type { GivenArguments, Parameter } from "../../formula/vocabulary.ts";
import { PickBook } from "../answering/answered-eyes.ts";
import { question, textGiven, type Worked } from "../question.ts";
import { drawingOf } from "./chart-drawing.ts";
import { chartPlan } from "./chart-plan.ts";
import { type ChartKind, chartKinds } from "./chart-scales.ts";
import { chartSentence } from "./chart-sentence.ts";
import { chartTable } from "./chart-table.ts";
import { smallShares, tableAnswer } from "./table-answer.ts";
import { tableGiven, tableParameter } from "./table-value.ts";

/**
 * What does it look like? Bars and lines stand for groups of rows: how many, or what a word that
 * sums up makes of them. Points and boxes stand for the rows themselves. Rows that cannot be
 * placed are left out and counted.
 */
export const chart = question(
  {
    name: "chart",
    meaning: "bars, points, lines or boxes of one thing over another",
    asks: "What does it look like?",
    example: 'chart(cases, across: technique, up: age, as: "boxes")',
    parameters: [
      tableParameter,
      { ...overRows("across", "what goes from left to right"), required: true },
      { ...overRows("up", "what goes up"), whenLeftOut: "the number of rows" },
      { ...overRows("by", "tell groups apart by this"), whenLeftOut: "no groups" },
      {
        name: "as",
        meaning: "what is drawn",
        takes: "value",
        kinds: ["text"],
        required: false,
        choices: chartKinds,
        whenLeftOut: `"${chartKinds[0]}"`,
      },
    ],
  },
  work,
);

function overRows(name: string, meaning: string): Parameter {
  return { name, meaning, takes: "row", kinds: [], required: false, byNameOnly: true };
}

function work(given: GivenArguments): Worked {
  const as = textGiven(given, "as", chartKinds[0] as ChartKind);
  const across = given.rows.get("across");
  if (across === undefined) throw new Error("called without across");
  const planned = chartPlan(tableGiven(given), {
    ...{ as, across, span: given.span },
    up: given.rows.get("up"),
    by: given.rows.get("by"),
  });
  if ("problems" in planned) return planned;
  const { plan } = planned;
  const picks = new PickBook();
  const drawing = drawingOf(plan, picks);
  return tableAnswer(
    plan.value,
    {
      question: "chart",
      asks: "What does it look like?",
      sentence: chartSentence(plan, drawing),
      table: chartTable(plan, drawing, picks),
      chart: { draw: "table", drawing },
      figures: { rows: plan.value.lines.length, missing: plan.missing },
      about: plan.names,
      compares: plan.compares,
      cautions:
        drawing.up.kind === "share"
          ? smallShares(
              plan.value,
              drawing.marks.map(({ rows }) => rows),
            )
          : [],
    },
    picks,
  );
}
