import type { RowColumn } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { figure } from "../answering/wording.ts";
import type { BoundTerm } from "./bound-term.ts";

/** A term of a model over the eyes that are complete: one column of numbers a level. */
export interface ModelTerm extends BoundTerm {
  /** `amount`: one column of numbers. `groups`: one column a level but the reference. */
  readonly kind: "amount" | "groups";
  /** The level that the others are set against: the commonest. */
  readonly reference?: { readonly text: string; readonly eyes: readonly number[] };
  readonly levels: readonly TermLevel[];
}

/** One column of the model, named by its position so that no text of a file is a name. */
export interface TermLevel {
  /** "per year", "B", "yes". */
  readonly text: string;
  readonly values: readonly number[];
  /** The eyes of the level; of an amount, all of them. */
  readonly eyes: readonly number[];
}

/** More levels than this are a list, not a term. */
const mostLevels = 12;

/** The term over its eyes; the same in all of them, or of too many kinds, is a problem. */
export function modelTerm(
  bound: BoundTerm,
  eyes: readonly number[],
): { readonly term: ModelTerm } | { readonly problem: Problem } {
  const { kind } = bound.column;
  if (kind === "number" || kind === "duration") return amountTerm(bound, eyes);
  return kind === "codes" ? codesTerm(bound, eyes) : groupsTerm(bound, eyes);
}

function amountTerm(bound: BoundTerm, eyes: readonly number[]) {
  const values = eyes.map((eye) => bound.column.at(eye) as number);
  if (new Set(values).size < 2) return { problem: constantTerm(bound, eyes.length) };
  const text = bound.unit === undefined ? "per 1" : `per ${bound.unit.replace(/s$/, "")}`;
  return { term: { ...bound, kind: "amount" as const, levels: [{ text, values, eyes }] } };
}

/** Several codes an eye may have at once: each is there or not. */
function codesTerm(bound: BoundTerm, eyes: readonly number[]) {
  const found = eyes.map((eye) => bound.column.at(eye) as readonly string[]);
  const codes = inOrder([...new Set(found.flat())], bound.column.order);
  if (codes.length > mostLevels) return { problem: tooManyLevels(bound, codes.length) };
  const levels = codes
    .map((code) => ({
      text: code,
      values: found.map((held) => (held.includes(code) ? 1 : 0)),
      eyes: eyes.filter((_, i) => found[i]?.includes(code)),
    }))
    .filter((level) => level.eyes.length < eyes.length);
  if (levels.length === 0) return { problem: constantTerm(bound, eyes.length) };
  return { term: { ...bound, kind: "groups" as const, levels } };
}

function groupsTerm(bound: BoundTerm, eyes: readonly number[]) {
  const texts = eyes.map((eye) => levelText(bound.column.at(eye)));
  const names = inOrder([...new Set(texts)], bound.column.order);
  if (names.length > mostLevels) return { problem: tooManyLevels(bound, names.length) };
  if (names.length < 2) return { problem: constantTerm(bound, eyes.length) };
  const all = names.map((text) => ({
    text,
    values: texts.map((each) => (each === text ? 1 : 0)),
    eyes: eyes.filter((_, i) => texts[i] === text),
  }));
  const reference = referenceOf(all, bound);
  const levels = all.filter((level) => level !== reference);
  return { term: { ...bound, kind: "groups" as const, reference, levels } };
}

/** "no" of a yes or no; else the commonest, the first of equals. */
function referenceOf(all: readonly TermLevel[], { column }: BoundTerm): TermLevel {
  const no = column.kind === "truth" ? all.find(({ text }) => text === "no") : undefined;
  const most = Math.max(...all.map((level) => level.eyes.length));
  const commonest = all.find((level) => level.eyes.length === most);
  const found = no ?? commonest;
  if (found === undefined) throw new Error("a term has no levels");
  return found;
}

function levelText(value: ReturnType<RowColumn["at"]>): string {
  if (typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "number" ? figure(value, 2) : String(value);
}

function inOrder(names: readonly string[], order: readonly string[] = []): string[] {
  const place = (name: string): number => {
    const position = order.indexOf(name);
    return position < 0 ? order.length : position;
  };
  return [...names].sort((a, b) => place(a) - place(b) || (a < b ? -1 : 1));
}

function constantTerm({ text, span }: BoundTerm, eyes: number): Problem {
  return {
    code: "constant-term",
    severity: "stop",
    place: { span },
    message: `${text} is the same in all ${eyes} eyes of the model, so nothing can be learnt of it`,
    found: text,
    remedy: "leave it out",
  };
}

function tooManyLevels({ text, span }: BoundTerm, levels: number): Problem {
  return {
    code: "too-many-levels",
    severity: "stop",
    place: { span },
    message: `${text} takes ${levels} different values, too many for a term of a model`,
    found: text,
    expected: `at most ${mostLevels} levels, or a number`,
    remedy: "gather the values into fewer groups first",
  };
}
