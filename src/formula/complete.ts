import { callsAt, type OpenCall, parameterAt } from "./open-calls.ts";
import type { Token } from "./piece.ts";
import { quoteText } from "./quote-text.ts";
import { tokenize } from "./tokenize.ts";
import type { Parameter, Vocabulary } from "./vocabulary.ts";

/** One thing that could be written at the cursor. */
export interface Completion {
  readonly label: string;
  readonly kind: "word" | "cell" | "column" | "argument" | "choice" | "part";
  readonly meaning: string;
  /** What takes the place of the text from `from` to `to`. */
  readonly apply: string;
}

export interface Completions {
  /** The span that a completion replaces: the name or text at the cursor, or nothing. */
  readonly from: number;
  readonly to: number;
  /** Nearest to the place first: choices, arguments, columns, cells, words. Not narrowed down. */
  readonly options: readonly Completion[];
}

/** A name and what it means, for a column or a part. */
export interface Named {
  readonly name: string;
  readonly meaning: string;
}

/** What can be named at the cursor. */
export interface Nameable {
  readonly vocabulary: Vocabulary;
  readonly cells: Iterable<string>;
  /** Offered inside row arguments. */
  readonly columns?: Iterable<Named>;
  /** The parts of what a cell is worth. */
  readonly parts?: (cell: string) => Iterable<Named>;
}

/**
 * What could be written at an offset of a working, however unfinished its text is: choices in
 * and without quotes, arguments that are not given yet, columns inside row arguments, cells,
 * words to call, and parts behind a point. Empty behind a value, where an operator must stand.
 */
export function completionsAt(text: string, offset: number, nameable: Nameable): Completions {
  const { tokens, problems } = tokenize(text);
  const unclosed = problems.find(
    ({ code, place }) => code === "unclosed-text" && contains(place.span, offset),
  );
  const touched = tokens.find((token) => isTouched(token, offset));
  const start = unclosed?.place.span?.start ?? touched?.span.start ?? offset;
  const to = unclosed === undefined ? (touched?.span.end ?? offset) : offset;
  const before = tokens.filter((token) => token.type !== "end" && token.span.end <= start);
  const after = tokens.find((token) => token.span.start >= to);
  const inText = unclosed !== undefined || touched?.type === "text";
  const place = { before, after, inText, calls: callsAt(before, nameable.vocabulary) };
  return { from: start, to, options: optionsAt(place, nameable) };
}

function contains(span: Token["span"] | undefined, offset: number): boolean {
  return span !== undefined && span.start < offset && offset <= span.end;
}

/** A name up to its end, a text only within its quotes. */
function isTouched({ type, span }: Token, offset: number): boolean {
  if (type === "text") return span.start < offset && offset < span.end;
  return (type === "name" || type === "keyword") && contains(span, offset);
}

interface Place {
  readonly before: readonly Token[];
  readonly after: Token | undefined;
  readonly inText: boolean;
  /** The calls round the cursor, innermost last. */
  readonly calls: readonly OpenCall[];
}

function optionsAt(place: Place, nameable: Nameable): readonly Completion[] {
  const last = place.before.at(-1);
  const innermost = place.calls.at(-1);
  const parameter = innermost === undefined ? undefined : parameterAt(innermost);
  if (place.inText) return choiceOptions(parameter);
  if (last?.type === "sign" && last.text === ".") return partOptions(place.before, nameable);
  if (last !== undefined && endsValue(last)) return [];
  const inRow = place.calls.some((call) => parameterAt(call)?.takes === "row");
  return [
    ...choiceOptions(parameter),
    ...(innermost?.atStart === true ? argumentOptions(innermost, place.after) : []),
    ...(inRow ? columnOptions(nameable) : []),
    ...cellOptions(nameable),
    ...wordOptions(nameable, place.after),
  ];
}

function endsValue({ type, text }: Token): boolean {
  if (type === "sign") return text === ")" || text === "]";
  return type !== "keyword" || ["true", "false", "missing"].includes(text);
}

function choiceOptions(parameter: Parameter | undefined): readonly Completion[] {
  return (parameter?.choices ?? []).map((choice) => ({
    label: choice,
    kind: "choice",
    meaning: parameter?.meaning ?? "",
    apply: quoteText(choice),
  }));
}

function partOptions(before: readonly Token[], { parts }: Nameable): readonly Completion[] {
  const cell = before.at(-2);
  const isBare = before.at(-3)?.text !== ".";
  if (cell?.type !== "name" || !isBare || parts === undefined) return [];
  return [...parts(cell.text)].map((part) => option(part, "part", part.name));
}

function argumentOptions(call: OpenCall, after: Token | undefined): readonly Completion[] {
  const isLabelled = after?.type === "sign" && after.text === ":";
  return call.word.parameters
    .filter(({ name }, position) => !call.named.has(name) && position >= call.position)
    .map((parameter) =>
      option(parameter, "argument", isLabelled ? parameter.name : `${parameter.name}: `),
    );
}

function columnOptions({ columns }: Nameable): readonly Completion[] {
  return [...(columns ?? [])].map((column) => option(column, "column", column.name));
}

function cellOptions({ cells }: Nameable): readonly Completion[] {
  return [...cells].map((name) => option({ name, meaning: "a cell of the sheet" }, "cell", name));
}

function wordOptions({ vocabulary }: Nameable, after: Token | undefined): readonly Completion[] {
  const isCalled = after?.type === "sign" && after.text === "(";
  return [...vocabulary.values()].map((word) =>
    option(word, "word", isCalled ? word.name : `${word.name}(`),
  );
}

function option({ name, meaning }: Named, kind: Completion["kind"], apply: string): Completion {
  return { label: name, kind, meaning, apply };
}
