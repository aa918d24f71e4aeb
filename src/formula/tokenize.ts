import type { Problem } from "../problem/problem.ts";
import { keywords } from "./keywords.ts";
import { Piece, type Reading, type Token } from "./piece.ts";
import { readIsoDay, readOtherDay } from "./read-days.ts";
import { readGroupedNumber, readNumber, readNumberWithoutWhole } from "./read-numbers.ts";
import { readOtherQuotes, readText, readUnclosedText } from "./read-texts.ts";
import { characterRemedies, slips } from "./slips.ts";

export interface Tokens {
  /** In the order of the text; the last is of type `end`. */
  readonly tokens: readonly Token[];
  readonly problems: readonly Problem[];
  /** Whether every problem could be read as if mended, so that the tokens still make sense. */
  readonly mended: boolean;
}

/**
 * Cuts the text of a working into tokens. Never throws: what cannot be read is a problem, and
 * reading goes on behind it. White space and line breaks only part tokens. Offsets count UTF-16
 * units from 0, as in `text.slice`.
 */
export function tokenize(text: string): Tokens {
  const reading: Reading = { tokens: [], problems: [], mended: true };
  for (let at = 0; at < text.length; ) at = readAt(text, at, reading);
  const end = { start: text.length, end: text.length };
  reading.tokens.push({ type: "end", span: end, text: "", value: Number.NaN });
  return reading;
}

/** Reads one piece at `at` and gives the offset behind it, always further on. */
function readAt(text: string, at: number, reading: Reading): number {
  for (const [pattern, read] of readers) {
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    if (match === null) continue;
    read(new Piece(match[0], at, reading));
    return at + match[0].length;
  }
  const character = String.fromCodePoint(text.codePointAt(at) ?? 0xfffd);
  readUnknown(new Piece(character, at, reading));
  return at + character.length;
}

/** Tried in this order; the first that fits reads. */
const readers: readonly (readonly [RegExp, (piece: Piece) => void])[] = [
  [/[\s\uFEFF]+/uy, () => {}],
  [/\d{4}-\d{1,2}-\d{1,2}(?![\p{L}\d_])/uy, readIsoDay],
  [/\d{1,2}([/.])\d{1,2}\1\d{4}(?![\p{L}\d_])/uy, readOtherDay],
  [/\d{1,3}(?:,\d{3})*,0\d{2}(?!\d)/uy, readGroupedNumber],
  [/\d+(?:\.\d+)?(?:[eE][+-]?\d+)?(?:\s*%)?/uy, readNumber],
  [/\.\d+/uy, readNumberWithoutWhole],
  [/[\p{L}_][\p{L}\p{M}\p{Nd}_]*/uy, readName],
  [/"(?:[^"\\\n\r]|\\[^\n\r])*"/uy, readText],
  [/"[^\n\r]*/uy, readUnclosedText],
  [/'[^'\n\r]*'|[“”„][^“”„"\n\r]*[“”"]|[‘’‚][^‘’‚'\n\r]*[‘’']|«[^«»\n\r]*»/uy, readOtherQuotes],
  [/\/\/[^\n\r]*|\/\*.*?(?:\*\/|$)|#[^\n\r]*/suy, readComment],
  [/===|!==|==|<>|=<|=>|&&|\|\||\*\*|[&|×·÷−–;{}]|!(?!=)/uy, readSlip],
  [/!=|<=|>=|[≠≤≥()[\],:.+\-*/^=<>]/uy, readSign],
];

function readName(piece: Piece): void {
  const name = piece.source.normalize("NFC");
  const lower = name.toLowerCase();
  if (keywords.has(name) || !keywords.has(lower)) {
    piece.token(keywords.has(name) ? "keyword" : "name", name);
    return;
  }
  piece.fault("keyword-case", {
    message: `\`${lower}\` is written in small letters.`,
    found: name,
    expected: lower,
    replacement: lower,
  });
  piece.token("keyword", lower);
}

function readComment(piece: Piece): void {
  piece.unreadable("comment-in-working", {
    message: "a working has no comments.",
    found: piece.source,
    remedy: "write remarks in the prose above the working",
    replacement: "",
  });
}

function readSlip(piece: Piece): void {
  const meant = slips.get(piece.source) ?? "";
  const isKeyword = keywords.has(meant);
  piece.fault("other-sign", {
    message: `\`${piece.source}\` is written \`${meant}\` here.`,
    found: piece.source,
    expected: meant,
    replacement: isKeyword ? ` ${meant} ` : meant,
  });
  piece.token(isKeyword ? "keyword" : "sign", meant);
}

function readSign(piece: Piece): void {
  piece.token("sign", asciiSigns.get(piece.source) ?? piece.source);
}

const asciiSigns = new Map([
  ["≠", "!="],
  ["≤", "<="],
  ["≥", ">="],
]);

function readUnknown(piece: Piece): void {
  piece.unreadable("unknown-character", {
    message: "this character has no meaning in a working.",
    found: piece.source,
    remedy: characterRemedies.get(piece.source) ?? "remove it, or put it in a text in quotes",
  });
}
