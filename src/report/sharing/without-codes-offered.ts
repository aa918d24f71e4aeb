import { parse } from "../../formula/parse.ts";
import { argumentOf, optionText } from "../../questions/settings/setting-of.ts";

/**
 * A working as it may be printed: where a choice offers people's codes beside the chosen one, `[…]`
 * stands for what it offers, so that the report of one person names nobody else.
 */
export function withoutCodesOffered(working: string, people: readonly string[]): string {
  const { tree } = parse(working);
  if (tree?.type !== "call" || tree.word !== "choose") return working;
  const offered = argumentOf(tree, "options", 0)?.value;
  const now = argumentOf(tree, "now", 1)?.value;
  if (offered?.type !== "list" || now === undefined) return working;
  const chosen = optionText(now);
  const codes = new Set(people);
  const others = offered.items.map(optionText).filter((text) => text !== chosen);
  if (!others.some((text) => codes.has(text))) return working;
  const { start, end } = offered.span;
  return `${working.slice(0, start)}[…]${working.slice(end)}`;
}
