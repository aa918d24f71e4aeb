import { format } from "../../formula/format.ts";
import { parse } from "../../formula/parse.ts";
import type { Argument, CallNode, Node } from "../../formula/tree.ts";
import type { Setting } from "../setting.ts";

/** The setting that a working is, or undefined where it is not one or is not written in literals. */
export function settingOf(working: string): Setting | undefined {
  const { tree } = parse(working);
  if (tree?.type !== "call") return undefined;
  switch (tree.word) {
    case "choose":
      return choiceOf(tree);
    case "range":
      return numberOf(tree);
    case "yes_no": {
      const now = argumentOf(tree, "now", 0)?.value;
      return now?.type === "truth" ? { type: "yes or no", now: now.truth } : undefined;
    }
    case "dates": {
      const from = argumentOf(tree, "from", 0)?.value;
      const to = argumentOf(tree, "to", 1)?.value;
      if (from?.type !== "day" || to?.type !== "day") return undefined;
      return { type: "dates", from: from.day, to: to.day };
    }
    default:
      return undefined;
  }
}

/** The argument of that name, or by position where it has none. */
export function argumentOf(call: CallNode, name: string, position: number): Argument | undefined {
  const named = call.arguments.find((argument) => argument.name === name);
  if (named !== undefined) return named;
  const byPosition = call.arguments[position];
  return byPosition?.name === null ? byPosition : undefined;
}

/** What an option reads like on the sheet: a text without its quotes, anything else as written. */
export function optionText(node: Node): string {
  return node.type === "text" ? node.text : format(node);
}

function choiceOf(call: CallNode): Setting | undefined {
  const list = argumentOf(call, "options", 0)?.value;
  const now = argumentOf(call, "now", 1)?.value;
  if (list?.type !== "list" || now === undefined) return undefined;
  const options = list.items.map(optionText);
  const position = options.indexOf(optionText(now));
  return position < 0 ? undefined : { type: "choice", options, now: position };
}

/** All four of its numbers are written with the same unit, or all without one. */
function numberOf(call: CallNode): Setting | undefined {
  const at = (name: string, position: number) => {
    const node = argumentOf(call, name, position)?.value;
    return node === undefined ? undefined : literalNumber(node);
  };
  const [least, most, step, now] = [at("least", 0), at("most", 1), at("step", 2), at("now", 3)];
  if (least === undefined || most === undefined || now === undefined) return undefined;
  const { unit } = now;
  if ([least, most, step ?? now].some((each) => each.unit !== unit)) return undefined;
  const numbers = { least: least.number, most: most.number, step: step?.number ?? 1 };
  return { type: "number", ...numbers, now: now.number, ...(unit !== undefined && { unit }) };
}

interface WrittenNumber {
  /** As written: 10 for `10%`. */
  readonly number: number;
  /** "%" or a unit of time in the plural. */
  readonly unit?: string;
}

function literalNumber(node: Node): WrittenNumber | undefined {
  if (node.type === "duration") return { number: node.amount, unit: `${node.unit}s` };
  if (node.type === "number") {
    if (!node.written.endsWith("%")) return { number: node.number };
    return { number: Number(node.written.slice(0, -1)), unit: "%" };
  }
  const negative =
    node.type === "unary" && node.operator === "-" ? literalNumber(node.operand) : undefined;
  return negative && { ...negative, number: -negative.number };
}
