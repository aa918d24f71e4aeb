import { chainedComparison, expectKeyword, unknownTest } from "./form-faults.ts";
import { parsePostfix } from "./parse-postfix.ts";
import type { Token } from "./piece.ts";
import type { TokenReader } from "./token-reader.ts";
import type { BinaryOperator, Node } from "./tree.ts";

/** Reads `if` and everything joined by operators: the upper half of the grammar in parse.ts. */
export function parseExpression(reader: TokenReader): Node {
  return reader.inside(() =>
    reader.is("keyword", "if") ? parseIf(reader) : parseOperators(reader, strengths.or),
  );
}

function parseIf(reader: TokenReader): Node {
  const opening = reader.next();
  const condition = parseExpression(reader);
  expectKeyword(reader, "then", opening);
  const whenTrue = parseExpression(reader);
  expectKeyword(reader, "else", opening);
  const whenFalse = parseExpression(reader);
  const span = { start: opening.span.start, end: reader.reach(whenFalse).end };
  return reader.made({ type: "if", span, condition, whenTrue, whenFalse });
}

/** How tightly operators bind; 0 is no operator. */
const strengths = { or: 1, and: 2, not: 3, comparison: 4, sum: 5, product: 6, sign: 7, power: 8 };

const strengthOfSign: ReadonlyMap<string, number> = new Map([
  ...["=", "!=", "<", "<=", ">", ">="].map((sign) => [sign, strengths.comparison] as const),
  ["+", strengths.sum],
  ["-", strengths.sum],
  ["*", strengths.product],
  ["/", strengths.product],
  ["^", strengths.power],
]);

const strengthOfKeyword: ReadonlyMap<string, number> = new Map([
  ["or", strengths.or],
  ["and", strengths.and],
  ["is", strengths.comparison],
  ["between", strengths.comparison],
]);

function strengthOf(token: Token): number {
  if (token.type === "sign") return strengthOfSign.get(token.text) ?? 0;
  return token.type === "keyword" ? (strengthOfKeyword.get(token.text) ?? 0) : 0;
}

/** Reads on as long as operators bind at least as tightly as `least`. */
function parseOperators(reader: TokenReader, least: number): Node {
  return reader.inside(() => {
    let left = parsePrefix(reader, least);
    for (;;) {
      const strength = strengthOf(reader.peek());
      if (strength === 0 || strength < least) return left;
      left =
        strength === strengths.comparison
          ? parseComparison(reader, left)
          : parseBinary(reader, left, strength);
    }
  });
}

function parsePrefix(reader: TokenReader, least: number): Node {
  const token = reader.peek();
  const isNot = token.type === "keyword" && token.text === "not" && least <= strengths.not;
  const isMinus = token.type === "sign" && token.text === "-";
  if (!isNot && !isMinus) return parsePostfix(reader, parseExpression);
  reader.next();
  const operand = parseOperators(reader, isNot ? strengths.not : strengths.sign);
  const span = { start: token.span.start, end: reader.reach(operand).end };
  return reader.made({ type: "unary", span, operator: isNot ? "not" : "-", operand });
}

function parseBinary(reader: TokenReader, left: Node, strength: number): Node {
  const token = reader.next();
  const isPower = strength === strengths.power;
  const right = parseOperators(reader, isPower ? strengths.sign : strength + 1);
  return binary(reader, token, [left, right]);
}

function binary(reader: TokenReader, token: Token, [left, right]: readonly [Node, Node]): Node {
  const operator = token.text as BinaryOperator;
  const span = reader.reachOver(left, right);
  return reader.made({ type: "binary", span, operator, operatorSpan: token.span, left, right });
}

function parseComparison(reader: TokenReader, operand: Node): Node {
  const token = reader.next();
  const comparison =
    token.type === "sign"
      ? binary(reader, token, [operand, parseOperators(reader, strengths.sum)])
      : token.text === "between"
        ? parseBetween(reader, { operand, token, negated: false })
        : parseTest(reader, operand, token);
  if (strengthOf(reader.peek()) === strengths.comparison) chainedComparison(reader);
  return comparison;
}

function parseTest(reader: TokenReader, operand: Node, is: Token): Node {
  const negated = reader.accept("keyword", "not");
  const token = reader.peek();
  const asksMissing = reader.accept("keyword", "missing");
  if (asksMissing || reader.accept("name", "known")) {
    const span = { start: reader.reach(operand).start, end: token.span.end };
    const test = asksMissing === negated ? "known" : "missing";
    return reader.made({ type: "is", span, operand, test });
  }
  if (reader.accept("keyword", "between")) {
    return parseBetween(reader, { operand, token, negated });
  }
  if (reader.is("name", "one") && reader.is("name", "of", 1)) {
    reader.next();
    reader.next();
    const list = parseOperators(reader, strengths.sum);
    const span = reader.reachOver(operand, list);
    return reader.made({ type: "oneOf", span, operand, list, negated });
  }
  return unknownTest(reader, is, negated);
}

function parseBetween(
  reader: TokenReader,
  { operand, token, negated }: { operand: Node; token: Token; negated: boolean },
): Node {
  const low = parseOperators(reader, strengths.sum);
  expectKeyword(reader, "and", token);
  const high = parseOperators(reader, strengths.sum);
  const span = reader.reachOver(operand, high);
  return reader.made({ type: "between", span, operand, low, high, negated });
}
