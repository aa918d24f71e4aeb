import { dayText } from "../../formula/calendar.ts";
import { kindInWords, rowValueOf } from "../../formula/kinds.ts";
import type { Value } from "../../formula/value.ts";
import type { GivenOperand, RowKind } from "../../formula/vocabulary.ts";
import type { Problem, Span } from "../../problem/problem.ts";
import { durationText } from "../answering/time-words.ts";
import { tableProblem } from "./table-problem.ts";

/** Cuts from low to high, and the label of each band, one more. */
export interface BandPlan {
  readonly cuts: readonly number[];
  readonly labels: readonly string[];
}

interface Written {
  readonly cuts: GivenOperand;
  readonly labels: GivenOperand | undefined;
  readonly span: Span;
}

/** What the cuts and labels say, or what is wrong with them for values of a kind. */
export function bandPlan(
  kind: RowKind,
  { cuts, labels }: Written,
): BandPlan | { readonly problems: readonly Problem[] } {
  const items = constantItems(cuts);
  if (items === undefined) return { problems: [notConstant(cuts.span)] };
  const numbers = items.map((item) => cutNumber(item, kind));
  if (!areAscending(numbers)) return { problems: [notInOrder(kind, cuts.span)] };
  if (labels === undefined) return { cuts: numbers, labels: usualLabels(items) };
  const texts = constantItems(labels)?.flatMap((item) => (item.kind === "text" ? item.text : []));
  if (texts === undefined) return { problems: [notConstant(labels.span)] };
  const fits = texts.length === numbers.length + 1 && new Set(texts).size === texts.length;
  return fits
    ? { cuts: numbers, labels: texts }
    : { problems: [labelsDoNotFit(numbers.length, labels.span)] };
}

/** The items of a list that is the same in every row. */
function constantItems({ operand }: GivenOperand): readonly Value[] | undefined {
  return operand.constant?.kind === "list" ? operand.constant.items : undefined;
}

function cutNumber(item: Value, kind: RowKind): number | undefined {
  if (item.kind === "thing" || (kind !== "missing" && item.kind !== kind)) return undefined;
  const held = rowValueOf(item);
  return typeof held === "number" ? held : undefined;
}

function areAscending(cuts: readonly (number | undefined)[]): cuts is readonly number[] {
  return (
    cuts.length > 0 &&
    cuts.every((cut, i) => {
      const before = i === 0 ? Number.NEGATIVE_INFINITY : cuts[i - 1];
      return cut !== undefined && before !== undefined && before < cut;
    })
  );
}

function usualLabels(cuts: readonly Value[]): string[] {
  const texts = cuts.map(cutText);
  const areDays = cuts[0]?.kind === "day";
  const between = texts
    .slice(1)
    .map((to, i) => (areDays ? `${texts[i]} to before ${to}` : `${texts[i]} to under ${to}`));
  return areDays
    ? [`before ${texts[0]}`, ...between, `${texts.at(-1)} or later`]
    : [`under ${texts[0]}`, ...between, `${texts.at(-1)} or over`];
}

function cutText(cut: Value): string {
  if (cut.kind === "duration") return durationText(cut);
  if (cut.kind === "day") return dayText(cut.day);
  return cut.kind === "number" ? String(cut.number) : "";
}

function notConstant(span: Span): Problem {
  return tableProblem("not-the-same-in-every-row", span, {
    message: "a band cannot change from row to row.",
    expected: "a list written out, such as [40, 60]",
  });
}

function notInOrder(kind: RowKind, span: Span): Problem {
  return tableProblem("bands-not-in-order", span, {
    message: "the cuts of bands rise from low to high, each of the kind of the value.",
    expected: `${kindInWords(kind)} or more of them, each above the one before, such as ${exampleCuts(kind)}`,
  });
}

function exampleCuts(kind: RowKind): string {
  if (kind === "duration") return "[7 days, 30 days]";
  return kind === "day" ? "[2024-01-01, 2025-01-01]" : "[40, 60]";
}

function labelsDoNotFit(cuts: number, span: Span): Problem {
  return tableProblem("labels-do-not-fit", span, {
    message: `${cuts === 1 ? "one cut makes" : `${cuts} cuts make`} ${cuts + 1} bands.`,
    expected: `${cuts + 1} texts, each different`,
  });
}
