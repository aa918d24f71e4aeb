import { nearestName } from "../problem/nearest-name.ts";
import type { Problem, Span } from "../problem/problem.ts";
import { fault } from "./fault.ts";
import type { Argument } from "./tree.ts";
import type { Parameter, Word } from "./vocabulary.ts";

/** One argument and the parameter it fills. */
export interface Match {
  readonly parameter: Parameter;
  readonly argument: Argument;
}

export interface Matches {
  /** In the order of the text. */
  readonly matches: readonly Match[];
  readonly problems: readonly Problem[];
}

/**
 * Which argument of a call fills which parameter of the word: by position in the order of the
 * parameters (but for those that are given by name only; a repeated one takes all the rest), then
 * by name. What fits nowhere, comes twice or is lacking is a problem; `span` is the whole call.
 */
export function matchArguments(word: Word, given: readonly Argument[], span: Span): Matches {
  const matches: Match[] = [];
  const problems: Problem[] = [];
  const filled = new Set<string>();
  const positional = word.parameters.filter((parameter) => parameter.byNameOnly !== true);
  let position = 0;
  for (const argument of given) {
    const parameter =
      argument.name === null ? positional[position] : parameterNamed(word, argument.name);
    if (parameter === undefined) {
      problems.push(argument.name === null ? tooMany(word, argument) : unknown(word, argument));
    } else if (filled.has(parameter.name) && parameter.repeated !== true) {
      problems.push(twice(parameter, argument));
    } else {
      filled.add(parameter.name);
      matches.push({ parameter, argument });
      if (argument.name === null && parameter.repeated !== true) position++;
    }
  }
  const lacking = word.parameters.filter(({ name, required }) => required && !filled.has(name));
  if (problems.length === 0) problems.push(...lacking.map((one) => leftOut(word, one, span)));
  return { matches, problems };
}

/** The parameter of that name, or the one that takes free names. */
function parameterNamed(word: Word, name: string): Parameter | undefined {
  const named = word.parameters.find((parameter) => parameter.name === name);
  return named ?? word.parameters.find((parameter) => parameter.freeNames === true);
}

function tooMany(word: Word, { span }: Argument): Problem {
  const byName = word.parameters.filter((parameter) => parameter.byNameOnly === true);
  const positional = word.parameters.length - byName.length;
  return fault("too-many-arguments", span, {
    message: `\`${word.name}\` takes at most ${positional} ${positional === 1 ? "argument" : "arguments"} by position.`,
    expected: callForm(word),
    remedy:
      byName.length > 0
        ? `give it a name, such as \`${byName[0]?.name}:\``
        : "remove it, or close a bracket before it",
  });
}

function unknown(word: Word, { name, nameSpan, span }: Argument): Problem {
  const names = word.parameters.map((parameter) => parameter.name);
  const nearest = nearestName(name ?? "", names);
  return fault("unknown-argument", nameSpan ?? span, {
    message: `\`${word.name}\` has no argument \`${name}\`.`,
    found: name ?? undefined,
    expected: callForm(word),
    remedy: nearest === undefined ? undefined : `write \`${nearest}\``,
    replacement: nearest,
  });
}

function twice(parameter: Parameter, { span, nameSpan, name }: Argument): Problem {
  return fault("argument-given-twice", nameSpan ?? span, {
    message: `\`${parameter.name}\` is given twice in this call.`,
    found: name ?? undefined,
    remedy: "keep one of the two",
  });
}

function leftOut(word: Word, parameter: Parameter, span: Span): Problem {
  return fault("argument-left-out", span, {
    message: `\`${word.name}\` needs \`${parameter.name}\`: ${parameter.meaning}.`,
    expected: callForm(word),
    remedy: `add \`${parameter.name}: …\``,
  });
}

/**
 * How a call of the word looks: `failure_rate(eyes, by: …, within: …)`. What is given by position
 * stands before what is given by name, as it has to in a working.
 */
export function callForm(word: Word): string {
  const byPosition = (parameter: Parameter): boolean =>
    parameter.repeated === true || (parameter.required && parameter.byNameOnly !== true);
  const ordered = [
    ...word.parameters.filter(byPosition),
    ...word.parameters.filter((parameter) => !byPosition(parameter)),
  ];
  const written = ordered.map((parameter) => {
    if (parameter.repeated === true) return `${parameter.name}, …`;
    return parameter.required && parameter.byNameOnly !== true
      ? parameter.name
      : `${parameter.name}: …`;
  });
  return `${word.name}(${written.join(", ")})`;
}
