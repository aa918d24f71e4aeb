import type { Span } from "../problem/problem.ts";
import type { Token } from "./piece.ts";
import { tokenize } from "./tokenize.ts";
import { units } from "./units.ts";

/**
 * The text of a working with the cell `from` called `to` wherever it is used as a value. Labels
 * of arguments, parts behind a point, words that are called, units and texts keep their letters,
 * and so does everything else, line breaks and faults included: a working that cannot be read is
 * renamed in too.
 */
export function renameIn(text: string, from: string, to: string): string {
  return renameOutside(text, { from, to }, []);
}

/**
 * As `renameIn`, but what lies in one of the spans stays: for a cell that has the name of a
 * column, the spans are those of `rowSpansIn`.
 */
export function renameOutside(
  text: string,
  { from, to }: { readonly from: string; readonly to: string },
  leave: readonly Span[],
): string {
  const name = from.normalize("NFC");
  let renamed = "";
  let done = 0;
  for (const { start, end } of mentionsOf(text, name)) {
    if (leave.some((span) => span.start <= start && end <= span.end)) continue;
    renamed += text.slice(done, start) + to;
    done = end;
  }
  return renamed + text.slice(done);
}

/** Where a name is used as a value, in the order of the text. */
function mentionsOf(text: string, name: string): readonly Span[] {
  const { tokens } = tokenize(text);
  return tokens.flatMap((token, at) =>
    token.type === "name" && token.text === name && isValue(tokens, at) ? [token.span] : [],
  );
}

function isValue(tokens: readonly Token[], at: number): boolean {
  const [before, token, behind] = [tokens[at - 1], tokens[at], tokens[at + 1]];
  const isUnit = before?.type === "number" && units.has(token?.text ?? "");
  const isPart = is(before, "sign", ".");
  const isCalled = is(behind, "sign", "(");
  const isLabel = is(behind, "sign", ":");
  return !isUnit && !isPart && !isCalled && !isLabel && !isTest(tokens, at);
}

/** `known`, `one` and `of` behind `is` or `is not` are words of the language. */
function isTest(tokens: readonly Token[], at: number): boolean {
  const text = tokens[at]?.text ?? "";
  if (text === "of") return is(tokens[at - 1], "name", "one") && isTest(tokens, at - 1);
  if (text !== "known" && text !== "one") return false;
  const not = is(tokens[at - 1], "keyword", "not") ? 1 : 0;
  return is(tokens[at - 1 - not], "keyword", "is");
}

function is(token: Token | undefined, type: Token["type"], text: string): boolean {
  return token?.type === type && token.text === text;
}
