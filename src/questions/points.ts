import type { Value } from "../formula/value.ts";
import type {
  GivenArguments,
  Outcome,
  Parameter,
  RowArguments,
  RowOutcome,
  RowValue,
  Word,
} from "../formula/vocabulary.ts";
import type { Problem, Span } from "../problem/problem.ts";
import { figure } from "./answering/wording.ts";

/**
 * A published score, typed by the reader with its source and its cut-off, as a stratum label: the
 * points are added and the sum is above the cut-off or not. It is never turned into a probability:
 * four published scores for scar-tissue failure had an area under the curve of 0.46 to 0.60 on
 * other people's eyes (Retina 2013;33, 1047 detachments). A point that is missing makes the score
 * not calculable; it is never taken for 0.
 *
 * An example, KNOWN FROM MEMORY ALONE and to be checked against the paper before any use: the
 * seven-term score of the early trials of drugs against scar tissue (quoted in Ophthalmology
 * 2001;108:1179; its coefficients were not found in any text at hand).
 *
 * ```
 * points([
 *   if pvr_grade = "C" then 2.88 else if pvr_grade = "B" then 1.85 else 0,
 *   if lens = "aphakic" then 2.92 else 0,
 *   if uveitis then 1.77 else 0,
 *   1.23 * quadrants_detached,
 *   if vitreous_haemorrhage then 0.83 else 0,
 *   if previous_cryotherapy then 1.23 else 0
 * ], source: "from memory, not checked", high_above: 6.33)
 * ```
 */
export const pointsWord: Word = {
  name: "points",
  meaning: "a published score as a stratum, low or high by its cut-off, never a probability",
  parameters: [
    parameter("points", ["list"], "the points of one eye, a missing one makes it not calculable"),
    parameter("source", ["text"], "where the score was published"),
    parameter("high_above", ["number"], "the cut-off: more points than this are high"),
  ],
  answers: "text",
  call: callPoints,
  perRow: pointsByRow,
};

function parameter(name: string, kinds: readonly string[], meaning: string): Parameter {
  return { name, meaning, takes: "value", kinds, required: true };
}

export const notCalculable = "not calculable";

/** The label of one sum; it says the cut-off and the source wherever it stands. */
function stratum(points: RowValue, { source, cutOff }: Score): string {
  const total = totalOf(points);
  if (total === null) return notCalculable;
  return total > cutOff ? labels({ source, cutOff }).high : labels({ source, cutOff }).low;
}

interface Score {
  readonly source: string;
  readonly cutOff: number;
}

function labels({ source, cutOff }: Score): { readonly low: string; readonly high: string } {
  const shown = figure(cutOff, 2);
  return { low: `low: ${shown} or less (${source})`, high: `high: above ${shown} (${source})` };
}

/** Sums such as 2.88 + 1.77 + 1.68 must not pass a cut-off of 6.33 by a hair of binary. */
const hair = 1e9;

function totalOf(points: RowValue): number | null {
  if (points === null || typeof points !== "object" || points.length === 0) return null;
  const numbers = points.filter((point) => typeof point === "number");
  if (numbers.length < points.length) return null;
  return Math.round(numbers.reduce((sum, point) => sum + point, 0) * hair) / hair;
}

function callPoints({ values, span }: GivenArguments): Outcome {
  const list = values.get("points")?.value;
  const items = list?.kind === "list" ? list.items : [];
  const wrong = items.find(({ kind }) => kind !== "number" && kind !== "missing");
  const score = scoreGiven(values.get("source")?.value, values.get("high_above")?.value, span);
  if (wrong !== undefined) return { ok: false, problems: [notNumbers(span)] };
  if ("problem" in score) return { ok: false, problems: [score.problem] };
  const points = items.map((item) => (item.kind === "number" ? item.number : null));
  return { ok: true, value: { kind: "text", text: stratum(points, score) } };
}

function pointsByRow({ values, span }: RowArguments): RowOutcome {
  const points = values.get("points");
  const constantOf = (name: string): Value | undefined => values.get(name)?.operand.constant;
  const score = scoreGiven(constantOf("source"), constantOf("high_above"), span);
  if ("problem" in score) return { ok: false, problems: [score.problem] };
  const item = points?.operand.item;
  if (points === undefined || (item !== "number" && item !== "missing")) {
    return { ok: false, problems: [notNumbers(points?.span ?? span)] };
  }
  const { low, high } = labels(score);
  return {
    ok: true,
    operand: {
      kind: "text",
      order: [low, high, notCalculable],
      at: (row) => stratum(points.operand.at(row), score),
    },
  };
}

function scoreGiven(
  source: Value | undefined,
  cutOff: Value | undefined,
  span: Span,
): Score | { readonly problem: Problem } {
  if (source?.kind === "text" && source.text.trim() !== "" && cutOff?.kind === "number") {
    return { source: source.text.trim(), cutOff: cutOff.number };
  }
  return {
    problem: {
      code: "score-without-source",
      severity: "stop",
      place: { span },
      message: "a score needs its source in words and one cut-off for all eyes",
      expected: 'source: "journal, year" and high_above: a number',
    },
  };
}

function notNumbers(span: Span): Problem {
  return {
    code: "points-not-numbers",
    severity: "stop",
    place: { span },
    message: "the points of a score are numbers",
    expected: 'numbers, such as [if lens = "aphakic" then 2 else 0, 1.5 * quadrants_detached]',
  };
}
