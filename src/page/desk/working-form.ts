import { parse } from "../../formula/parse.ts";
import type { Argument, CallNode } from "../../formula/tree.ts";
import type { Parameter } from "../../formula/vocabulary.ts";
import type { WordView } from "../protocol.ts";

/** A working that is one call, as a form: for each parameter, the text of its argument. */
export interface WorkingForm {
  readonly working: string;
  readonly word: WordView;
  readonly call: CallNode;
  readonly fields: readonly FormField[];
}

export interface FormField {
  readonly parameter: Parameter;
  /** Empty where the argument is left out. A repeated one holds all, separated by commas. */
  readonly text: string;
  readonly given: readonly Argument[];
}

/** The form of a working, or undefined where it is not a call of one of the words. */
export function formOfWorking(
  working: string,
  words: readonly WordView[],
): WorkingForm | undefined {
  const { tree } = parse(working);
  if (tree?.type !== "call" || working[tree.span.end - 1] !== ")") return undefined;
  const word = words.find(({ name }) => name === tree.word);
  if (word === undefined) return undefined;
  const fields = word.parameters.map((parameter) => {
    const given = argumentsFor(tree, word, parameter);
    return { parameter, given, text: textOf(given, working) };
  });
  return { working, word, call: tree, fields };
}

/**
 * The working with one field of its form rewritten; all else stays as it was written. An empty
 * text leaves the argument out.
 */
export function withField(form: WorkingForm, field: FormField, text: string): string {
  const { working } = form;
  const written = text.trim();
  const [first, last] = [field.given[0], field.given.at(-1)];
  if (first === undefined || last === undefined) {
    return written === "" ? working : insertArgument(form, field, written);
  }
  if (written === "") return removeArguments(form, field);
  const { start } = first.value.span;
  return working.slice(0, start) + written + working.slice(last.value.span.end);
}

function argumentsFor(call: CallNode, word: WordView, parameter: Parameter): readonly Argument[] {
  const named = call.arguments.filter(({ name }) => name === parameter.name);
  if (named.length > 0) return named;
  const position = word.parameters.indexOf(parameter);
  const end = parameter.repeated === true ? undefined : position + 1;
  return call.arguments.filter(({ name }) => name === null).slice(position, end);
}

function textOf(given: readonly Argument[], working: string): string {
  const [first, last] = [given[0], given.at(-1)];
  if (first === undefined || last === undefined) return "";
  return working.slice(first.value.span.start, last.value.span.end);
}

/** One that repeats goes after the others by position; any other at the end, by its name. */
function insertArgument(
  { working, call, word }: WorkingForm,
  { parameter }: FormField,
  text: string,
): string {
  const positional = call.arguments.filter(({ name }) => name === null);
  const before = parameter.repeated === true ? positional.at(-1) : call.arguments.at(-1);
  const isFirst = call.arguments.length === 0 && word.parameters[0] === parameter;
  const argument = parameter.repeated === true || isFirst ? text : `${parameter.name}: ${text}`;
  if (before === undefined) {
    const at = call.wordSpan.end + working.slice(call.wordSpan.end).indexOf("(") + 1;
    const comma = call.arguments.length > 0 ? ", " : "";
    return working.slice(0, at) + argument + comma + working.slice(at);
  }
  return `${working.slice(0, before.span.end)}, ${argument}${working.slice(before.span.end)}`;
}

/** Arguments by position that come after the one removed are given their names. */
function removeArguments({ working, call, word }: WorkingForm, field: FormField): string {
  const position = word.parameters.indexOf(field.parameter);
  const kept = call.arguments.flatMap((argument, i) => {
    if (field.given.includes(argument)) return [];
    const text = working.slice(argument.span.start, argument.span.end);
    const name = word.parameters[i]?.name;
    const shifts = argument.name === null && i > position && name !== undefined;
    return [shifts ? `${name}: ${text}` : text];
  });
  return `${working.slice(0, call.wordSpan.end)}(${kept.join(", ")})${working.slice(call.span.end)}`;
}

/** Arguments that no field of the form holds, as they are written. */
export function alsoWritten({ working, call, fields }: WorkingForm): readonly string[] {
  const held = new Set(fields.flatMap(({ given }) => given));
  return call.arguments
    .filter((argument) => !held.has(argument))
    .map(({ span }) => working.slice(span.start, span.end));
}
