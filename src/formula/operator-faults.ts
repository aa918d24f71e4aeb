import type { Problem } from "../problem/problem.ts";
import { isPossible, readDay } from "./calendar.ts";
import { fault } from "./fault.ts";
import { format } from "./format.ts";
import { kindInWords, plainKinds } from "./kinds.ts";
import type { BinaryNode, Node } from "./tree.ts";

/**
 * Two kinds that an operator does not stand between. Kinds may be what a thing is `of`; one that
 * is not known yet is undefined.
 */
export function operatorFault(
  node: BinaryNode,
  left: string | undefined,
  right: string | undefined,
): Problem {
  const known = [left, right].filter((kind) => kind !== undefined);
  const thing = known.find((kind) => !plainKinds.has(kind));
  if (thing !== undefined) return thingFault(node, thing);
  const mend = lengthMend(node, left, right) ?? dayMend(node, left, right);
  const beside = known.length === 1 ? "beside" : "between";
  const message = `\`${node.operator}\` cannot stand ${beside} ${known.map(kindInWords).join(" and ")}.`;
  if (mend !== null) {
    const [at, replacement] = mend;
    const remedy = `write \`${replacement}\``;
    return fault("operator-kinds", at.span, { message, found: format(at), remedy, replacement });
  }
  const holds = holdsMend(node, left, right);
  if (holds !== null) {
    const remedy = `write \`${holds}\``;
    const text = { message, found: format(node), remedy, replacement: holds };
    return fault("operator-kinds", node.span, text);
  }
  const text = { message, found: format(node), expected: expectations.get(node.operator) };
  return fault("operator-kinds", node.operatorSpan, {
    ...text,
    ...remedyFor(node, left, right),
  });
}

/** An operand of `and`, `or` or `not`, or a condition, that is not true or false. */
export function truthFault(node: Node, kind: string, user: string): Problem {
  return fault("operator-kinds", node.span, {
    message: `\`${user}\` needs true or false, and this is ${kindInWords(kind)}.`,
    found: format(node),
    expected: 'a comparison such as `age >= 70` or `technique = "vitrectomy"`',
  });
}

/** `-` before something that is neither a number nor a length of time. */
export function signFault(node: Node, kind: string): Problem {
  return fault("operator-kinds", node.span, {
    message: `\`-\` needs a number or a length of time behind it, and this is ${kindInWords(kind)}.`,
    found: format(node),
  });
}

/** Nothing is equal to missing, not even missing: a test was meant. */
export function comparedWithMissing(node: BinaryNode): Problem {
  const operand = node.left.type === "missing" ? node.right : node.left;
  const test = node.operator === "=" ? "is missing" : "is known";
  const mended = format({
    type: "is",
    span: node.span,
    operand,
    test: node.operator === "=" ? "missing" : "known",
  });
  return fault("compared-with-missing", node.span, {
    severity: "query",
    message: "a comparison with missing is itself missing, never true or false.",
    found: format(node),
    remedy: `write \`${test}\` to ask whether the value is known`,
    replacement: node.operator === "=" || node.operator === "!=" ? mended : undefined,
  });
}

/** What stands right of `is one of`, or an item of it, does not fit. */
export function listFault(node: Node, kind: string): Problem {
  return fault("list-expected", node.span, {
    message: `\`is one of\` needs a list behind it, and this is ${kindInWords(kind)}.`,
    found: format(node),
    expected: "a list such as `[1, 2, 3]`",
    ...(plainKinds.has(kind) && node.type !== "name"
      ? { remedy: "put it in square brackets", replacement: `[${format(node)}]` }
      : {}),
  });
}

/** The items of a list are of kinds that the operand of `is one of` is never equal to. */
export function itemFault(list: Node, operand: string, item: string | undefined): Problem {
  const items = item === undefined ? "the list mixes kinds" : `the list holds ${kindInWords(item)}`;
  return fault("operator-kinds", list.span, {
    message: `\`is one of\` compares ${kindInWords(operand)} with the items, and ${items}.`,
    found: format(list),
    expected: "items of the same kind as the value before `is`",
    ...(operand === "list" ? { remedy: "write `contains_any(list, [..])`" } : {}),
  });
}

type Mend = readonly [Node, string];

/** A number beside a length of time: the number was meant in days, or the length as a number. */
function lengthMend(
  { left, right }: BinaryNode,
  leftKind?: string,
  rightKind?: string,
): Mend | null {
  const [number, length] =
    leftKind === "number" && (rightKind === "duration" || rightKind === "day")
      ? [left, right]
      : rightKind === "number" && (leftKind === "duration" || leftKind === "day")
        ? [right, left]
        : [null, null];
  if (number?.type === "number" && !number.written.endsWith("%")) {
    return [number, `${number.written} ${number.number === 1 ? "day" : "days"}`];
  }
  if (number === null || length?.type !== "duration" || length.unit !== "day") return null;
  return [length, length.written.split(" ")[0] ?? ""];
}

/** `operation_date > "2025-03-31"`: the quotes are too many. */
function dayMend({ left, right }: BinaryNode, leftKind?: string, rightKind?: string): Mend | null {
  const isBeside = (kind?: string) => kind === "day" || kind === undefined;
  const text =
    isBeside(leftKind) && right.type === "text"
      ? right
      : isBeside(rightKind) && left.type === "text"
        ? left
        : null;
  if (text === null) return null;
  const day = readDay(text.text);
  return day !== null && isPossible(day) ? [text, text.text] : null;
}

/** `breaks = "dialysis"`, where breaks are several: whether one of them is was meant. */
function holdsMend(node: BinaryNode, leftKind?: string, rightKind?: string): string | null {
  const sides = leftKind === "list" ? [node.left, node.right] : [node.right, node.left];
  const isMeant = [leftKind, rightKind].includes("list") && [leftKind, rightKind].includes("text");
  const [list, text] = sides.map(format);
  return node.operator === "=" && isMeant ? `contains(${list}, ${text})` : null;
}

const expectations: ReadonlyMap<string, string> = new Map([
  ["+", "two numbers, two lengths of time, or a day and a length of time"],
  ["-", "two numbers, two lengths of time, two days, or a day and a length of time"],
  ["*", "two numbers, or a number and a length of time"],
  ["/", "two numbers, two lengths of time, or a length of time and a number"],
  ["^", "two numbers"],
  ["=", "two values of the same kind"],
  ["!=", "two values of the same kind"],
  ["<", "two numbers, two days or two lengths of time"],
  ["<=", "two numbers, two days or two lengths of time"],
  [">", "two numbers, two days or two lengths of time"],
  [">=", "two numbers, two days or two lengths of time"],
]);

function remedyFor(node: BinaryNode, left?: string, right?: string): { remedy?: string } {
  if (left === "list" || right === "list") {
    return {
      remedy: "ask whether a list holds a value with `contains(list, value)` or `is one of`",
    };
  }
  if ((left ?? "text") === "text" && (right ?? "text") === "text") {
    return {
      remedy:
        node.operator === "+"
          ? "join texts with `joined(first, second)`"
          : "texts have no order: name those that are meant with `is one of [..]`",
    };
  }
  return {};
}

function thingFault(node: BinaryNode, thing: string): Problem {
  return fault("operator-kinds", node.operatorSpan, {
    message: `\`${node.operator}\` cannot reckon with \`${thing}\` as a whole.`,
    found: format(node),
    remedy: "read a part of it by name, as in `how_often.rate`",
  });
}
