import type { Piece } from "./piece.ts";
import { escaped, quoteText } from "./quote-text.ts";

export function readText(piece: Piece): void {
  const content = piece.source.slice(1, -1);
  for (const match of content.matchAll(/\\(.)/gsu)) {
    if (escaped.has(match[1] ?? "")) continue;
    const start = piece.span.start + 1 + match.index;
    const found = match[0];
    const text = {
      message: "a backslash in a text stands before a quote, another backslash, n, r or t.",
      found,
      expected: `\\\\${found.slice(1)} for a backslash`,
      replacement: `\\${found}`,
    };
    piece.fault("unknown-escape", text, { start, end: start + found.length });
  }
  piece.token(
    "text",
    content.replace(/\\(.)/gsu, (all, letter) => escaped.get(letter) ?? all),
  );
}

export function readUnclosedText(piece: Piece): void {
  piece.unreadable("unclosed-text", {
    message: "this text has no closing quote on its line.",
    found: piece.source,
    expected: 'a text such as "vitrectomy"',
    remedy: 'write `"` at the end of the text',
  });
}

export function readOtherQuotes(piece: Piece): void {
  const content = piece.source.slice(1, -1);
  piece.fault("other-quotes", {
    message: "texts stand in straight double quotes.",
    found: piece.source,
    expected: quoteText(content),
    replacement: quoteText(content),
  });
  piece.token("text", content);
}
