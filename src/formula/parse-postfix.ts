import { expectClosing, valueExpected } from "./form-faults.ts";
import { parseArguments } from "./parse-arguments.ts";
import type { Token } from "./piece.ts";
import type { TokenReader } from "./token-reader.ts";
import type { Node } from "./tree.ts";
import { units } from "./units.ts";

/** Reads a whole expression: handed in, since brackets, lists and arguments hold expressions. */
export type Parse = (reader: TokenReader) => Node;

/** Reads a value and the parts read of it: the lower half of the grammar in parse.ts. */
export function parsePostfix(reader: TokenReader, parseExpression: Parse): Node {
  let node = parsePrimary(reader, parseExpression);
  for (;;) {
    if (reader.is("sign", "(")) return notCallable(reader);
    if (!reader.accept("sign", ".")) return node;
    node = parsePart(reader, node, parseExpression);
  }
}

function parsePart(reader: TokenReader, of: Node, parseExpression: Parse): Node {
  const name = reader.peek();
  if (name.type !== "name") {
    return reader.stop("part-name-expected", reader.previous().span, {
      message: "the name of a part follows a point.",
      found: name.type === "end" ? "the end of the working" : name.text,
      expected: "a name, as in `how_often.rate`",
    });
  }
  reader.next();
  const called = reader.is("sign", "(") ? parseArguments(reader, parseExpression) : null;
  const span = { start: reader.reach(of).start, end: reader.previous().span.end };
  const part = { type: "part", span, of, part: name.text, partSpan: name.span } as const;
  return reader.made({ ...part, arguments: called });
}

function notCallable(reader: TokenReader): Node {
  return reader.stop("not-callable", reader.peek().span, {
    message: "only a word or a part can be called.",
    found: "(",
    expected: "a word before the bracket, as in `round(3.7)`",
    remedy: "to multiply, write `*` before the bracket",
  });
}

function parsePrimary(reader: TokenReader, parseExpression: Parse): Node {
  const token = reader.peek();
  if (token.type === "name") return parseName(reader, parseExpression);
  if (token.type === "number") return parseNumber(reader);
  const literal = literalOf(token);
  if (literal !== null) {
    reader.next();
    return reader.made(literal);
  }
  if (token.type === "sign" && token.text === "[") return parseList(reader, parseExpression);
  if (token.type === "sign" && token.text === "(") return parseBrackets(reader, parseExpression);
  return valueExpected(reader);
}

function literalOf({ type, span, text, value }: Token): Node | null {
  if (type === "text") return { type: "text", span, text };
  if (type === "day") return { type: "day", span, day: value };
  if (type !== "keyword") return null;
  if (text === "missing") return { type: "missing", span };
  return text === "true" || text === "false"
    ? { type: "truth", span, truth: text === "true" }
    : null;
}

function parseNumber(reader: TokenReader): Node {
  const { span, text: written, value: number } = reader.next();
  const next = reader.peek();
  const unit = next.type === "name" && !written.endsWith("%") ? units.get(next.text) : undefined;
  if (unit === undefined) return reader.made({ type: "number", span, number, written });
  reader.next();
  return reader.made({
    type: "duration",
    span: { start: span.start, end: next.span.end },
    amount: number,
    unit,
    written: `${written} ${next.text}`,
  });
}

function parseName(reader: TokenReader, parseExpression: Parse): Node {
  const { span: wordSpan, text } = reader.next();
  if (!reader.is("sign", "(")) return reader.made({ type: "name", span: wordSpan, name: text });
  const given = parseArguments(reader, parseExpression);
  const span = { start: wordSpan.start, end: reader.previous().span.end };
  return reader.made({ type: "call", span, word: text, wordSpan, arguments: given });
}

function parseBrackets(reader: TokenReader, parseExpression: Parse): Node {
  const opening = reader.next();
  const inner = parseExpression(reader);
  expectClosing(reader, ")", opening.span);
  return reader.bracketed(inner, { start: opening.span.start, end: reader.previous().span.end });
}

function parseList(reader: TokenReader, parseExpression: Parse): Node {
  const opening = reader.next();
  const items: Node[] = [];
  if (!reader.is("sign", "]")) {
    do items.push(parseExpression(reader));
    while (reader.accept("sign", ","));
  }
  expectClosing(reader, "]", opening.span);
  const span = { start: opening.span.start, end: reader.previous().span.end };
  return reader.made({ type: "list", span, items });
}
