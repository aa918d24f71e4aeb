import type { Problem, Span } from "../../problem/problem.ts";
import { fault } from "../fault.ts";
import { type Kind, kindInWords, kindsInWords, rowValueOf, valueOfRow } from "../kinds.ts";
import { isSound } from "../operations.ts";
import { itemKind, unify } from "../row-context.ts";
import type { Value } from "../value.ts";
import type {
  GivenArguments,
  GivenValue,
  Outcome,
  Parameter,
  RowArguments,
  RowOperand,
  RowOutcome,
  RowValue,
  Word,
} from "../vocabulary.ts";

/**
 * A word over plain values. It is written once, over what stands in a row, and so means the same
 * in a working of its own, in the rows of a table and in a summary.
 *
 * An argument that is missing makes the outcome missing (a missing item of a list is the word's
 * own matter), and so does, in the rows of a table, an outcome that cannot be reckoned (infinite,
 * no number, no day); in a working of its own the latter is a problem.
 */
export interface PlainWord {
  readonly name: string;
  readonly meaning: string;
  readonly parameters: readonly Parameter[];
  /** The kind of the outcome, or what it follows from; `shown` is how the list of words puts it. */
  readonly answers: Kind | { readonly shown: string; of(shapes: readonly Shape[]): Shape };
  /** Kinds that the items of a list may be; any plain kind where left out. */
  readonly items?: readonly Kind[];
  /** What stands for an argument left out, by position; null where left out altogether. */
  readonly defaults?: readonly RowValue[];
  readonly overRows?: "known" | "all";
  /** By position; the values of a repeated parameter as one list, lists among them opened. */
  apply(...given: never[]): RowValue;
}

/** What is known of an argument before its value: the kind, and for a list that of its items. */
export interface Shape {
  readonly kind: Kind;
  readonly item?: Kind | undefined;
}

interface Given extends Shape {
  readonly at: (row: number) => RowValue;
  readonly span: Span;
}

/** The word as the vocabulary holds it. */
export function plainWord(plan: PlainWord): Word {
  const parameters = plan.parameters.map(withMissing);
  const answers = typeof plan.answers === "string" ? plan.answers : plan.answers.shown;
  return {
    name: plan.name,
    meaning: plan.meaning,
    parameters,
    answers,
    call: (given) => callOnce(plan, given),
    perRow: (given) => callByRow(plan, given),
    ...(plan.overRows === undefined ? {} : { overRows: plan.overRows }),
  };
}

/** Missing is allowed everywhere and makes the outcome missing. */
function withMissing(parameter: Parameter): Parameter {
  return { ...parameter, kinds: [...parameter.kinds, "missing"] };
}

function callOnce(plan: PlainWord, { values, repeated, span }: GivenArguments): Outcome {
  const given = inOrder(plan, values, repeated as readonly GivenValue[], ofValue);
  const tied = tie(plan, given);
  if (!tied.ok) return tied;
  const held = tied.at(0);
  if (isSound(tied.shape.kind, held)) {
    return { ok: true, value: valueOfRow(held, tied.shape.kind, tied.shape.item) };
  }
  return { ok: false, problems: [notFinite(plan, span)] };
}

function callByRow(plan: PlainWord, { values, repeated }: RowArguments): RowOutcome {
  const given = inOrder(plan, values, repeated, ({ operand, span: at }) => ({
    ...shapeOf(operand),
    at: operand.at,
    span: at,
  }));
  const tied = tie(plan, given);
  if (!tied.ok) return tied;
  const { shape, at } = tied;
  const sound = (row: number) => {
    const held = at(row);
    return isSound(shape.kind, held) ? held : null;
  };
  const item = shape.item === undefined ? {} : { item: shape.item };
  return { ok: true, operand: { kind: shape.kind, at: sound, ...item } };
}

function ofValue({ value, span }: GivenValue): Given {
  if (value.kind === "thing") return { kind: "missing", at: () => null, span };
  const held = rowValueOf(value);
  return { ...shapeOfValue(value), at: () => held, span };
}

function shapeOfValue(value: Exclude<Value, { kind: "thing" }>): Shape {
  return value.kind === "list"
    ? { kind: "list", item: itemKind(value.items) }
    : { kind: value.kind };
}

function shapeOf({ kind, item }: RowOperand): Shape {
  return { kind, item };
}

/** The arguments in the order of the parameters; the repeated ones as a single list. */
function inOrder<Argument>(
  plan: PlainWord,
  values: ReadonlyMap<string, Argument>,
  repeated: readonly Argument[],
  given: (argument: Argument) => Given,
): readonly (Given | null)[] {
  return plan.parameters.map((parameter) => {
    if (parameter.repeated === true) return asOneList(repeated.map(given));
    const argument = values.get(parameter.name);
    return argument === undefined ? null : given(argument);
  });
}

function asOneList(given: readonly Given[]): Given {
  const kinds = given.map(({ kind, item }) => (kind === "list" ? item : kind));
  const item = kinds.reduce<Kind | undefined>(
    (all, kind) => (all === undefined || kind === undefined ? undefined : unify(all, kind)),
    "missing",
  );
  const at = (row: number) => {
    const items: RowValue[] = [];
    for (const each of given) {
      const held = each.at(row);
      if (held !== null && typeof held === "object") items.push(...held);
      else items.push(held);
    }
    return items;
  };
  const span = { start: given[0]?.span.start ?? 0, end: given.at(-1)?.span.end ?? 0 };
  return { kind: "list", item, at, span };
}

type Tied =
  | { readonly ok: true; readonly shape: Shape; readonly at: (row: number) => RowValue }
  | { readonly ok: false; readonly problems: readonly Problem[] };

function tie(plan: PlainWord, given: readonly (Given | null)[]): Tied {
  const problems = given.flatMap((each) => (each === null ? [] : itemProblems(plan, each)));
  if (problems.length > 0) return { ok: false, problems };
  const shapes = given.map((each) => each ?? { kind: "missing" as const });
  const { answers } = plan;
  const shape = typeof answers === "string" ? { kind: answers } : answers.of(shapes);
  const at = applied(plan, given);
  return { ok: true, shape, at: shape.kind === "duration" ? inWholeDays(at) : at };
}

function inWholeDays(at: Given["at"]): Given["at"] {
  return (row) => {
    const held = at(row);
    return typeof held === "number" ? Math.round(held) : held;
  };
}

/** A list whose items are of no kind that the word can work with. */
function itemProblems({ name, items }: PlainWord, { kind, item, span }: Given): Problem[] {
  if (kind !== "list" || item === "missing") return [];
  if (item !== undefined && (items === undefined || items.includes(item))) return [];
  return [
    fault("wrong-kind", span, {
      message:
        item === undefined
          ? `the list for \`${name}\` mixes kinds.`
          : `the list for \`${name}\` holds ${kindInWords(item)}, which it cannot work with.`,
      expected: `a list of one kind: ${kindsInWords(items ?? ["number", "text", "day"])}`,
    }),
  ];
}

function applied(plan: PlainWord, given: readonly (Given | null)[]): (row: number) => RowValue {
  const apply = plan.apply as (...given: readonly RowValue[]) => RowValue;
  const readers = given.map((each, position) => {
    const otherwise = plan.defaults?.[position] ?? null;
    return each === null ? { at: () => otherwise, isGiven: false } : { at: each.at, isGiven: true };
  });
  const [first, second] = readers;
  if (first !== undefined && readers.length === 1) {
    return (row) => {
      const held = first.at(row);
      return held === null && first.isGiven ? null : apply(held);
    };
  }
  if (first !== undefined && second !== undefined && readers.length === 2) {
    return (row) => {
      const one = first.at(row);
      const other = second.at(row);
      if ((one === null && first.isGiven) || (other === null && second.isGiven)) return null;
      return apply(one, other);
    };
  }
  return (row) => {
    const held = readers.map(({ at }) => at(row));
    const isMissing = held.some((each, position) => each === null && readers[position]?.isGiven);
    return isMissing ? null : apply(...held);
  };
}

function notFinite({ name }: PlainWord, span: Span): Problem {
  return fault("not-finite-word", span, {
    message: `\`${name}\` has no answer for these values.`,
    expected: "values for which the outcome is a finite number or a day that exists",
  });
}
