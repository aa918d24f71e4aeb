import type { Problem } from "../problem/problem.ts";
import { choiceFault, kindFault } from "./argument-faults.ts";
import { fault } from "./fault.ts";
import type { Inspect, Inspection } from "./inspection.ts";
import { type Match, matchArguments } from "./match-arguments.ts";
import { unknownWord } from "./name-faults.ts";
import { quoteText } from "./quote-text.ts";
import type { Argument, CallNode, Node } from "./tree.ts";
import type { Value } from "./value.ts";
import type { Word } from "./vocabulary.ts";

/** Notes what is wrong with a call: the word, its arguments, their kinds and choices. */
export function checkCall(
  node: CallNode,
  inspection: Inspection,
  inspect: Inspect,
): string | undefined {
  const { vocabulary, cells, problems } = inspection;
  const word = vocabulary.get(node.word);
  if (word === undefined) {
    problems.push(unknownWord(node, vocabulary, cells.has(node.word)));
    for (const { value } of node.arguments) inspect(value, { ...inspection, inRow: true });
    return undefined;
  }
  const withEquals = node.arguments.flatMap((one) => equalsForColon(one, word, inspection));
  if (withEquals.length > 0) {
    problems.push(...withEquals);
    return knownKind(word.answers);
  }
  const matched = matchArguments(word, node.arguments, node.span);
  problems.push(...matched.problems);
  for (const match of matched.matches) checkArgument(word, match, { inspection, inspect });
  return knownKind(word.answers);
}

/** `by = technique` where `by: technique` was meant. */
function equalsForColon(
  { name, value }: Argument,
  word: Word,
  { cells }: Inspection,
): readonly Problem[] {
  if (name !== null || value.type !== "binary" || value.operator !== "=") return [];
  const { left, operatorSpan } = value;
  if (left.type !== "name" || cells.has(left.name)) return [];
  if (!word.parameters.some((parameter) => parameter.name === left.name)) return [];
  return [
    fault("argument-with-equals", operatorSpan, {
      message: `the argument \`${left.name}\` is given with \`:\`, not \`=\`.`,
      found: "=",
      expected: `${left.name}: …`,
      replacement: ":",
    }),
  ];
}

function checkArgument(
  word: Word,
  match: Match,
  { inspection, inspect }: { readonly inspection: Inspection; readonly inspect: Inspect },
): void {
  const { parameter, argument } = match;
  const { problems, cells } = inspection;
  const bare = argument.value.type === "name" ? argument.value.name : null;
  const inRow = inspection.inRow || parameter.takes === "row";
  if (bare !== null && !inRow && !cells.has(bare) && parameter.choices?.includes(bare)) {
    problems.push(withoutQuotes(bare, argument));
    return;
  }
  const kind = inspect(argument.value, { ...inspection, inRow });
  if (parameter.takes === "row") return;
  const mayGather = inRow && word.overRows !== undefined;
  const wrongKind = kind === undefined || mayGather ? null : kindFault(kind, match);
  const value = literalValue(argument.value);
  const wrong = wrongKind ?? (value === null ? null : choiceFault(value, match));
  if (wrong !== null) problems.push(wrong);
}

function withoutQuotes(text: string, { value }: Argument): Problem {
  return fault("text-without-quotes", value.span, {
    message: `the text \`${text}\` stands without quotes.`,
    found: text,
    expected: quoteText(text),
    replacement: quoteText(text),
  });
}

/** A text, or the texts of a list, as typed. */
function literalValue(node: Node): Value | null {
  if (node.type === "text") return { kind: "text", text: node.text };
  if (node.type !== "list") return null;
  const items = node.items.map((item) => literalValue(item) ?? ({ kind: "missing" } as const));
  return { kind: "list", items };
}

/** What a word answers, where it is one kind. */
function knownKind(answers: string): string | undefined {
  return answers === "any" || answers.includes(" ") ? undefined : answers;
}
