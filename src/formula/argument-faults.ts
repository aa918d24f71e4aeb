import { nearestName } from "../problem/nearest-name.ts";
import type { Problem } from "../problem/problem.ts";
import { isPossible, readDay } from "./calendar.ts";
import { fault } from "./fault.ts";
import { format } from "./format.ts";
import { exampleOfKind, kindInWords, kindsInWords } from "./kinds.ts";
import type { Match } from "./match-arguments.ts";
import { quoteText } from "./quote-text.ts";
import type { Node } from "./tree.ts";
import type { Value } from "./value.ts";

/** What is wrong with the kind of an argument, or null. `kind` may be what a thing is `of`. */
export function kindFault(kind: string, { parameter, argument }: Match): Problem | null {
  const { kinds, name } = parameter;
  if (kinds.length === 0 || kinds.includes(kind)) return null;
  const expected = kindsInWords(kinds);
  const mended = mendedKind(argument.value, kinds);
  const example = exampleOfKind.get(kinds[0] ?? "");
  const find = kind === "missing" ? "nothing is known here" : `this is ${kindInWords(kind)}`;
  return fault("wrong-kind", argument.value.span, {
    message: `${expected} was expected for \`${name}\`, ${find}.`,
    found: format(argument.value),
    expected: example === undefined ? expected : `${expected}, such as ${example}`,
    remedy: mended === undefined ? undefined : `write \`${mended}\``,
    replacement: mended,
  });
}

/** `90` for a length of time, `"2025-03-31"` for a day, `7 days` for a number. */
function mendedKind(node: Node, kinds: readonly string[]): string | undefined {
  if (node.type === "number" && kinds.includes("duration")) {
    return node.written.endsWith("%") ? undefined : `${node.written} days`;
  }
  if (node.type === "text" && kinds.includes("day")) {
    const day = readDay(node.text);
    return day !== null && isPossible(day) ? node.text : undefined;
  }
  if (node.type === "duration" && kinds.includes("number")) return node.written.split(" ")[0];
  if (node.type === "text" || node.type === "list" || !kinds.includes("list")) return undefined;
  return node.type === "name" ? undefined : `[${format(node)}]`;
}

/** What is wrong with a text, or with a text in a list, that must be one of some choices. */
export function choiceFault(value: Value, { parameter, argument }: Match): Problem | null {
  const { choices } = parameter;
  if (choices === undefined) return null;
  const texts = value.kind === "list" ? value.items : [value];
  const position = texts.findIndex((text) => text.kind === "text" && !choices.includes(text.text));
  const wrong = texts[position];
  if (wrong === undefined || wrong.kind !== "text") return null;
  const node = argument.value;
  const at = (node.type === "list" ? node.items[position] : undefined) ?? node;
  const nearest = nearestName(wrong.text, choices);
  return fault("wrong-choice", at.span, {
    message: `${quoteText(wrong.text)} is not a choice for \`${parameter.name}\`.`,
    found: quoteText(wrong.text),
    expected: choices.map(quoteText).join(", "),
    remedy: nearest === undefined ? undefined : `write ${quoteText(nearest)}`,
    replacement: nearest === undefined || at.type !== "text" ? undefined : quoteText(nearest),
  });
}
