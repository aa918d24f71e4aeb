import { nearestName } from "../problem/nearest-name.ts";
import type { Span } from "../problem/problem.ts";
import { keywords } from "./keywords.ts";
import type { Token } from "./piece.ts";
import type { TokenReader } from "./token-reader.ts";
import type { Node } from "./tree.ts";
import { unitSlips, units } from "./units.ts";

/** A value should stand here and something else does. */
export function valueExpected(reader: TokenReader): Node {
  const token = reader.peek();
  if (token.type === "end") {
    return reader.stop("value-expected", token.span, {
      message: "the working ends where a value should stand.",
      expected: "a number, a text in quotes, a name or a call",
    });
  }
  if (token.type === "keyword" && (token.text === "not" || token.text === "if")) {
    return reader.stop("brackets-needed", token.span, {
      message: `\`${token.text}\` needs brackets round it here.`,
      found: token.text,
      expected: token.text === "if" ? "(if … then … else …)" : "(not …)",
    });
  }
  return reader.stop("value-expected", token.span, {
    message: "a value should stand here.",
    found: token.text,
    expected: "a number, a text in quotes, a name or a call",
    ...remedyForValue(token, reader.previous()),
  });
}

function remedyForValue(token: Token, before: Token): { remedy?: string; replacement?: string } {
  if (token.type !== "sign") return {};
  if (token.text === "+") return { remedy: "leave the plus sign out", replacement: "" };
  const isClosing = token.text === ")" || token.text === "]";
  return isClosing && before.text === "," ? { remedy: "leave the comma before it out" } : {};
}

/** A value has ended and neither an operator nor the end of the working follows. */
export function operatorExpected(reader: TokenReader): Node {
  const token = reader.peek();
  const before = reader.previous();
  if (token.text === ")" || token.text === "]") {
    return reader.stop("unopened-bracket", token.span, {
      message: `this \`${token.text}\` closes no bracket.`,
      found: token.text,
      remedy: "remove it, or open a bracket before it",
      replacement: "",
    });
  }
  if (token.text === "," && before.type === "number") return partedNumber(reader, before);
  if (before.type === "number" && token.type === "name") return unknownUnit(reader, token);
  return reader.stop("operator-expected", token.span, operatorText(token));
}

function operatorText(token: Token) {
  const message = "two values stand side by side with nothing between them.";
  const expected = "an operator such as `+`, `=` or `and`, or a comma between arguments";
  if (token.type === "name" && token.text === "in") {
    return { message, found: "in", expected: "is one of", replacement: "is one of" };
  }
  if (token.type === "keyword" && token.text === "not") {
    const remedy = "write `is not one of` or `is not between`";
    return { message: "`not` cannot stand here.", found: "not", remedy };
  }
  if (token.type === "name" || token.type === "keyword" || token.type === "sign") {
    const wrong = `\`${token.text}\` cannot stand here.`;
    return { message: token.type === "name" ? message : wrong, found: token.text, expected };
  }
  return { message, found: token.text, expected };
}

/** `1,200` and `0,5` outside brackets: a number was meant. */
function partedNumber(reader: TokenReader, before: Token): Node {
  const after = reader.peek(1);
  const comma = reader.peek();
  const isParted =
    after.type === "number" &&
    before.span.end === comma.span.start &&
    after.span.start === comma.span.end;
  if (!isParted) return reader.stop("operator-expected", comma.span, operatorText(comma));
  const isThousands = /^\d{3}(\.|$)/.test(after.text) && !before.text.includes(".");
  const mended = `${before.text}${isThousands ? "" : "."}${after.text}`;
  const span = { start: before.span.start, end: after.span.end };
  return reader.stop("number-form", span, {
    message: isThousands
      ? "thousands are not parted in a number."
      : "a number has a decimal point, not a comma.",
    found: `${before.text},${after.text}`,
    expected: mended,
    replacement: mended,
  });
}

function unknownUnit(reader: TokenReader, token: Token): Node {
  const known = unitSlips.get(token.text) ?? nearestName(token.text, units.keys());
  return reader.stop("unknown-unit", token.span, {
    message: `\`${token.text}\` is not a unit of time.`,
    found: token.text,
    expected: "days, weeks, months or years",
    remedy: known === undefined ? `to multiply, write \`* ${token.text}\`` : `write \`${known}\``,
    replacement: known,
  });
}

/** Steps over the closing bracket, or says what is wrong with it. */
export function expectClosing(reader: TokenReader, closing: ")" | "]", opening: Span): void {
  const token = reader.peek();
  if (reader.accept("sign", closing)) return;
  const opened = closing === ")" ? "(" : "[";
  if (token.type === "end") {
    reader.stop("unclosed-bracket", opening, {
      message: `this \`${opened}\` is never closed.`,
      found: opened,
      remedy: `write \`${closing}\` where it should end`,
    });
  } else if (token.text === ")" || token.text === "]") {
    reader.stop("mismatched-bracket", token.span, {
      message: `\`${opened}\` is closed by \`${closing}\`.`,
      found: token.text,
      expected: closing,
      replacement: closing,
    });
  } else operatorExpected(reader);
}

/** Steps over `then`, `else` or the `and` of `between`, or says that it is lacking. */
export function expectKeyword(reader: TokenReader, keyword: string, opening: Token): void {
  if (reader.accept("keyword", keyword)) return;
  const token = reader.peek();
  const isBetween = opening.text === "between";
  reader.stop(isBetween ? "between-without-and" : "if-incomplete", opening.span, {
    message: `this \`${opening.text}\` has no \`${keyword}\`.`,
    found: token.type === "end" ? "the end of the working" : token.text,
    expected: isBetween ? "between … and …" : "if … then … else …",
  });
}

export function chainedComparison(reader: TokenReader): void {
  reader.stop("chained-comparison", reader.peek().span, {
    message: "comparisons do not follow one another.",
    found: reader.peek().text,
    expected: "two comparisons joined by `and`, or `between … and …`",
    remedy: "put brackets round one of them, or join them by `and`",
  });
}

/** `is` is followed by something that is no test. */
export function unknownTest(reader: TokenReader, is: Token, negated: boolean): Node {
  const token = reader.peek();
  const expected = "is missing, is known, is one of […], is between … and …";
  if (token.type === "name" && token.text === "in") {
    return reader.stop("unknown-test", token.span, {
      message: "`is` is followed by a test.",
      found: token.text,
      expected,
      replacement: "one of",
    });
  }
  const sign = negated ? "!=" : "=";
  return reader.stop(
    "unknown-test",
    { start: is.span.start, end: reader.previous().span.end },
    {
      message: "`is` is followed by a test.",
      found: token.type === "end" ? "the end of the working" : token.text,
      expected,
      remedy: `to compare with a value, write \`${sign}\``,
      replacement: sign,
    },
  );
}

/** A label before `:` that cannot be one. */
export function argumentNameExpected(reader: TokenReader): Node {
  const token = reader.peek();
  const isKeyword = keywords.has(token.text);
  return reader.stop("argument-name-expected", token.span, {
    message: isKeyword
      ? `\`${token.text}\` is a word of the language and names no argument.`
      : "the name of an argument stands before `:` without quotes.",
    found: token.text,
    expected: "a name, as in `by: technique`",
    ...(token.type === "text" && /^\p{L}[\p{L}\p{Nd}_]*$/u.test(token.text) && !isKeyword
      ? { replacement: token.text }
      : {}),
  });
}
