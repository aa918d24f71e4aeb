import type { Answer, Caution, Sentence } from "../../questions/answer.ts";
import { sentenceText } from "../../questions/answer.ts";
import { cautionWithoutCounts } from "./caution-without-counts.ts";
import { sharedChart } from "./shared-chart.ts";
import { type SharedTable, sharedTable, type TableToShare, withheldText } from "./shared-table.ts";
import { tellsOtherCounts } from "./tells-counts.ts";

export interface SharedAnswer {
  readonly answer: Answer;
  /** What is kept back, in words. */
  readonly withheld: readonly string[];
}

/** An answer of which nothing can be had that may not be shown. */
export function sharedAnswer(given: TableToShare): SharedAnswer {
  const { answer } = given;
  const shared = sharedTable(given);
  const chart = sharedChart(given, shared);
  const isDrawn = chart !== undefined && drawnRows(chart) > 0;
  const sentence = sharedSentence(given, shared);
  return {
    answer: {
      question: answer.question,
      asks: answer.asks,
      sentence: sentence ?? [],
      table: shared.table,
      ...(isDrawn ? { chart } : {}),
      cautions: answer.cautions.map((caution) => sharedCaution(given, caution)),
      unit: answer.unit,
      used: 0,
      leftOut: [],
      figures: {},
    },
    withheld: [
      ...cellsWithheld(given, shared),
      ...(sentence === undefined
        ? ["The sentence is withheld: it tells counts that are not shown."]
        : []),
      ...chartWithheld(answer, isDrawn ? chart : undefined),
    ],
  };
}

function drawnRows(chart: NonNullable<Answer["chart"]>): number {
  if (chart.draw === "intervals") return chart.intervals.rows.length;
  return chart.draw === "causes" ? chart.causes.causes.length : 1;
}

/** The sentence where nothing of its answer is withheld and it tells no count but those shown. */
function sharedSentence(given: TableToShare, { whole }: SharedTable): Sentence | undefined {
  const { answer } = given;
  if (whole.size < answer.table.rows.length) return undefined;
  const text = given.label(sentenceText(answer.sentence), "");
  if (tellsOtherCounts(text, openSizes(given))) return undefined;
  return answer.sentence.map((part) => {
    if (typeof part === "string") return given.label(part, "");
    const { pick: _, ...rest } = part;
    return { ...rest, text: given.label(part.text, "") };
  });
}

/** The counts of this answer that are shown; all numbers of one made without cases. */
function openSizes({ natures, rowsOf, open, name, answer }: TableToShare): ReadonlySet<number> {
  const shown = natures.flat().flatMap((cell) => {
    if (cell.is !== "count" || !open.has(`${name}/${cell.pick}`)) return [];
    return [rowsOf(cell.pick)?.size ?? 0];
  });
  const typed =
    answer.used === 0 ? answer.table.rows.flat().flatMap(({ value }) => value ?? []) : [];
  return new Set([...shown, ...typed.filter((value) => typeof value === "number")]);
}

function sharedCaution(given: TableToShare, { code, text }: Caution): Caution {
  const told = given.label(text, "");
  // A count here may be of rows that no table counts: none is let through by looking like another.
  return tellsOtherCounts(told, new Set()) ? cautionWithoutCounts(code) : { code, text: told };
}

function cellsWithheld({ threshold }: TableToShare, { table }: SharedTable): string[] {
  const cells = table.rows.flat().filter(({ text }) => text === withheldText).length;
  if (cells === 0) return [];
  const numbers = cells === 1 ? "One number is" : `${cells} numbers are`;
  return [
    `${numbers} withheld: counts under ${threshold}, in eyes or in patients, others from which ` +
      "these could be worked out, and figures that rest on them or on counts that are not shown.",
  ];
}

function chartWithheld({ chart }: Answer, drawn: Answer["chart"]): string[] {
  if (chart === undefined) return [];
  if (drawn === undefined) return ["The chart is left out: it would show what is withheld."];
  if (drawn.draw !== "attachment curves") return [];
  const groups = chart.draw === "attachment curves" ? chart.curves.groups.length : 0;
  const left = groups - drawn.curves.groups.length;
  return [
    "The curves are read only on the days under which the numbers stand.",
    ...(left > 0
      ? [
          `${left === 1 ? "One curve is" : `${left} curves are`} left out: the eyes at risk or failed would be too few.`,
        ]
      : []),
  ];
}
