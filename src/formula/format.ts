import { dayText } from "./calendar.ts";
import { parse } from "./parse.ts";
import { quoteText } from "./quote-text.ts";
import type { Argument, BinaryNode, Node } from "./tree.ts";

/**
 * A tree as the text of a working, which parses to the same tree again. One line where it fits
 * into 100 columns; else calls, lists and chains of operators take a line for each part, two
 * spaces further in. Only brackets that are needed are written; `85%`, `0.50` and `1 month` stay
 * as they were typed; signs are written in ASCII (`!=`, `<=`, `>=`).
 */
export function format(tree: Node): string {
  return write(tree, { indent: 0, lead: 0, width });
}

/** The text as `format` would write it, or as it is where it cannot be read without problems. */
export function formatWorking(text: string): string {
  const { tree, problems } = parse(text);
  return tree === null || problems.length > 0 ? text : format(tree);
}

const width = 100;

interface Place {
  /** Columns that a new line begins with. */
  readonly indent: number;
  /** Columns already filled on the line. */
  readonly lead: number;
  /** Columns in a line; infinite for all on one line. */
  readonly width: number;
}

function write(node: Node, place: Place): string {
  if (place.width === Number.POSITIVE_INFINITY) return lay(node, place, false);
  const onOneLine = lay(node, { ...place, width: Number.POSITIVE_INFINITY }, false);
  // One column is kept for a comma or a bracket behind it.
  return place.lead + onOneLine.length < place.width ? onOneLine : lay(node, place, true);
}

function lay(node: Node, place: Place, broken: boolean): string {
  switch (node.type) {
    case "number":
    case "duration":
      return node.written;
    case "text":
      return quoteText(node.text);
    case "day":
      return dayText(node.day);
    case "truth":
      return String(node.truth);
    case "missing":
      return "missing";
    case "name":
      return node.name;
    case "list":
      return layItems({ before: "[", after: "]" }, node.items, { place, broken });
    case "call":
      return layItems({ before: `${node.word}(`, after: ")" }, node.arguments, { place, broken });
    default:
      return layOperation(node, place, broken);
  }
}

type Operation = Exclude<
  Node,
  { type: "number" | "duration" | "text" | "day" | "truth" | "missing" | "name" | "list" | "call" }
>;

function layOperation(node: Operation, place: Place, broken: boolean): string {
  switch (node.type) {
    case "unary":
      return node.operator === "not"
        ? sequence(place, "not ", [node.operand, strengths.not])
        : sequence(place, "-", [node.operand, strengths.sign]);
    case "binary":
      return broken ? layChain(node, place) : layBinary(node, place);
    case "is":
      return sequence(place, [node.operand, strengths.sum], ` is ${node.test}`);
    case "oneOf": {
      const test = node.negated ? " is not one of " : " is one of ";
      return sequence(place, [node.operand, strengths.sum], test, [node.list, strengths.sum]);
    }
    case "between": {
      const test = node.negated ? " is not between " : " between ";
      const ends = [[node.low, strengths.sum], " and ", [node.high, strengths.sum]] as const;
      return sequence(place, [node.operand, strengths.sum], test, ...ends);
    }
    case "part": {
      const base = sequence(place, [node.of, strengths.postfix], `.${node.part}`);
      if (node.arguments === null) return base;
      const within = { place: after(place, base), broken };
      return base + layItems({ before: "(", after: ")" }, node.arguments, within);
    }
    case "if": {
      const then = broken ? `${newLine(place)}  then ` : " then ";
      const otherwise = broken ? `${newLine(place)}  else ` : " else ";
      return sequence(place, "if ", [node.condition, 0], then, [node.whenTrue, 0], otherwise, [
        node.whenFalse,
        0,
      ]);
    }
  }
}

/** Texts as they are, and nodes with brackets where they bind looser than their strength. */
function sequence(place: Place, ...parts: readonly (string | readonly [Node, number])[]): string {
  let text = "";
  for (const part of parts) {
    const here = after(place, text);
    text += typeof part === "string" ? part : bracketed(part[0], part[1], here);
  }
  return text;
}

function bracketed(node: Node, least: number, place: Place): string {
  if (strengthOf(node) >= least) return write(node, place);
  return `(${write(node, { ...place, lead: place.lead + 1 })})`;
}

function layBinary(node: BinaryNode, place: Place): string {
  const [left, right] = strengthsBeside(node);
  const sign = node.operator === "^" ? "^" : ` ${node.operator} `;
  return sequence(place, [node.left, left], sign, [node.right, right]);
}

/** Operators of one strength, each on a line of its own with the value behind it. */
function layChain(node: BinaryNode, place: Place): string {
  const strength = strengthOf(node);
  if (strength === strengths.power) return layBinary(node, place);
  const lines: string[] = [];
  const inner = { ...place, indent: place.indent + 2, lead: place.indent + 2 };
  const [least, leastRight] = strengthsBeside(node);
  const line = ({ operator, right }: BinaryNode) =>
    sequence(inner, `${operator} `, [right, leastRight]);
  let chain = node;
  lines.push(line(chain));
  while (chain.left.type === "binary" && strength === least && strengthOf(chain.left) === least) {
    chain = chain.left;
    lines.unshift(line(chain));
  }
  return [bracketed(chain.left, least, place), ...lines].join(newLine(inner));
}

function layItems(
  brackets: { readonly before: string; readonly after: string },
  items: readonly (Node | Argument)[],
  { place, broken }: { readonly place: Place; readonly broken: boolean },
): string {
  const inner = { ...place, indent: place.indent + 2, lead: place.indent + 2 };
  const written = items.map((item) => writeItem(item, broken ? inner : place));
  if (!broken || items.length === 0) {
    return `${brackets.before}${written.join(", ")}${brackets.after}`;
  }
  const lines = written.join(`,${newLine(inner)}`);
  return `${brackets.before}${newLine(inner)}${lines}${newLine(place)}${brackets.after}`;
}

function writeItem(item: Node | Argument, place: Place): string {
  if ("type" in item) return write(item, place);
  const label = item.name === null ? "" : `${item.name}: `;
  return label + write(item.value, { ...place, lead: place.lead + label.length });
}

function newLine(place: Place): string {
  return `\n${" ".repeat(place.width === Number.POSITIVE_INFINITY ? 0 : place.indent)}`;
}

/** The place behind a text that begins at `place`. */
function after(place: Place, text: string): Place {
  const lineStart = text.lastIndexOf("\n");
  if (lineStart < 0) return { ...place, lead: place.lead + text.length };
  return { ...place, lead: text.length - lineStart - 1 };
}

/** How tightly a node holds together; the same order as in the grammar. */
const strengths = {
  or: 1,
  and: 2,
  not: 3,
  comparison: 4,
  sum: 5,
  product: 6,
  sign: 7,
  power: 8,
  postfix: 9,
};

function strengthOf(node: Node): number {
  if (node.type === "if") return 0;
  if (node.type === "is" || node.type === "oneOf" || node.type === "between") {
    return strengths.comparison;
  }
  if (node.type === "unary") return node.operator === "not" ? strengths.not : strengths.sign;
  if (node.type !== "binary") return strengths.postfix;
  if (node.operator === "or" || node.operator === "and") return strengths[node.operator];
  if (node.operator === "+" || node.operator === "-") return strengths.sum;
  if (node.operator === "*" || node.operator === "/") return strengths.product;
  return node.operator === "^" ? strengths.power : strengths.comparison;
}

/** The least strength that the two sides of an operator need to stand without brackets. */
function strengthsBeside(node: BinaryNode): readonly [number, number] {
  const strength = strengthOf(node);
  if (strength === strengths.power) return [strengths.postfix, strengths.sign];
  if (strength === strengths.comparison) return [strengths.sum, strengths.sum];
  return [strength, strength + 1];
}
