import { formatDay } from "../../cases/calendar-day.ts";
import { format } from "../../formula/format.ts";
import { parse } from "../../formula/parse.ts";
import type { CallNode, Node } from "../../formula/tree.ts";
import type { Span } from "../../problem/problem.ts";
import { argumentOf } from "./setting-of.ts";

/** An option's position, a number, a yes/no, or a first and a last day since 1970-01-01. */
export type SettingChange = number | boolean | readonly [from: number, to: number];

/**
 * The working with the setting changed, nothing else in it touched. A change that does not fit
 * the working (no such option, another kind of setting) leaves it as it was.
 */
export function withSetting(working: string, change: SettingChange): string {
  const { tree } = parse(working);
  if (tree?.type !== "call") return working;
  return replaced(working, changesOf(tree, change));
}

type Replacement = readonly [span: Span, text: string];

function changesOf(call: CallNode, change: SettingChange): Replacement[] {
  if (call.word === "choose" && typeof change === "number") return changedChoice(call, change);
  if (call.word === "range" && typeof change === "number") {
    const now = argumentOf(call, "now", 3)?.value;
    return replacing(now, withUnitOf(now, change));
  }
  if (call.word === "yes_no" && typeof change === "boolean") {
    return replacing(argumentOf(call, "now", 0)?.value, String(change));
  }
  if (call.word === "dates" && typeof change === "object") {
    return [
      ...replacing(argumentOf(call, "from", 0)?.value, formatDay(change[0])),
      ...replacing(argumentOf(call, "to", 1)?.value, formatDay(change[1])),
    ];
  }
  return [];
}

function changedChoice(call: CallNode, position: number): Replacement[] {
  const list = argumentOf(call, "options", 0)?.value;
  const option = list?.type === "list" ? list.items[position] : undefined;
  return option === undefined ? [] : replacing(argumentOf(call, "now", 1)?.value, format(option));
}

/** A number in the unit in which the one before it is written: `12%`, `1 day`. */
function withUnitOf(before: Node | undefined, number: number): string {
  const literal = before?.type === "unary" ? before.operand : before;
  if (literal?.type === "duration") return `${number} ${literal.unit}${number === 1 ? "" : "s"}`;
  return literal?.type === "number" && literal.written.endsWith("%") ? `${number}%` : `${number}`;
}

function replacing(node: Node | undefined, text: string): Replacement[] {
  return node === undefined ? [] : [[node.span, text]];
}

/** From the last to the first, so that spans stay true. */
function replaced(text: string, replacements: readonly Replacement[]): string {
  return [...replacements]
    .sort(([a], [b]) => b.start - a.start)
    .reduce((so, [{ start, end }, by]) => so.slice(0, start) + by + so.slice(end), text);
}
