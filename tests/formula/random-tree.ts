import fc from "fast-check";
import { firstDay, lastDay } from "../../src/formula/calendar.ts";
import { keywords } from "../../src/formula/keywords.ts";
import type { Argument, BinaryOperator, Node } from "../../src/formula/tree.ts";
import { units } from "../../src/formula/units.ts";

const span = { start: 0, end: 0 };

const name = fc
  .oneof(
    fc.constantFrom("x", "how_often", "known", "one", "of", "days", "constructor", "__proto__"),
    fc.stringMatching(/^[a-zA-Zéøß_][a-z0-9_]{0,9}$/u),
  )
  .map((text) => text.normalize("NFC"))
  .filter((text) => !keywords.has(text.toLowerCase()));

const written = fc.oneof(
  fc.nat(100_000).map(String),
  fc.tuple(fc.nat(999), fc.nat(99)).map(([whole, decimals]) => `${whole}.${decimals}`),
  fc.constantFrom("0.50", "1e-5", "12e3", "007", "85%", "33.3%"),
);

const leaf: fc.Arbitrary<Node> = fc.oneof(
  written.map((text): Node => ({ type: "number", span, number: numberOf(text), written: text })),
  fc.tuple(written, fc.constantFrom(...units.keys())).map(durationNode),
  fc.string({ maxLength: 12 }).map((text): Node => ({ type: "text", span, text })),
  fc.integer({ min: firstDay, max: lastDay }).map((day): Node => ({ type: "day", span, day })),
  fc.boolean().map((truth): Node => ({ type: "truth", span, truth })),
  fc.constant<Node>({ type: "missing", span }),
  name.map((text): Node => ({ type: "name", span, name: text })),
);

function numberOf(text: string): number {
  return text.endsWith("%") ? Number(`${text.slice(0, -1)}e-2`) : Number(text);
}

function durationNode([number, unit]: [string, string]): Node {
  const digits = number.replace("%", "");
  const kind = units.get(unit) ?? "day";
  return {
    type: "duration",
    span,
    amount: Number(digits),
    unit: kind,
    written: `${digits} ${unit}`,
  };
}

const operators: readonly BinaryOperator[] = [
  ...(["and", "or", "+", "-", "*", "/", "^"] as const),
  ...(["=", "!=", "<", "<=", ">", ">="] as const),
];

function argumentsOf(value: fc.Arbitrary<Node>): fc.Arbitrary<readonly Argument[]> {
  const byPosition = fc
    .array(value, { maxLength: 3 })
    .map((values) =>
      values.map((each): Argument => ({ span, name: null, nameSpan: null, value: each })),
    );
  const byName = fc
    .uniqueArray(fc.tuple(name, value), { maxLength: 3, selector: ([label]) => label })
    .map((pairs) =>
      pairs.map(([label, each]): Argument => ({ span, name: label, nameSpan: span, value: each })),
    );
  return fc.tuple(byPosition, byName).map(([first, then]) => [...first, ...then]);
}

/** Any tree that the parser can make, with every span at 0. */
export const randomTree: fc.Arbitrary<Node> = fc.letrec<{ node: Node }>((tie) => {
  const node = tie("node");
  return {
    node: fc.oneof(
      { maxDepth: 6, depthSize: "small" },
      leaf,
      fc.tuple(fc.constantFrom("-", "not"), node).map(
        ([operator, operand]): Node => ({
          type: "unary",
          span,
          operator: operator as "-" | "not",
          operand,
        }),
      ),
      fc.tuple(fc.constantFrom(...operators), node, node).map(
        ([operator, left, right]): Node => ({
          type: "binary",
          span,
          operator,
          operatorSpan: span,
          left,
          right,
        }),
      ),
      fc.tuple(node, fc.constantFrom("missing", "known")).map(
        ([operand, test]): Node => ({
          type: "is",
          span,
          operand,
          test: test as "missing" | "known",
        }),
      ),
      fc
        .tuple(node, node, fc.boolean())
        .map(([operand, list, negated]): Node => ({ type: "oneOf", span, operand, list, negated })),
      fc.tuple(node, node, node, fc.boolean()).map(
        ([operand, low, high, negated]): Node => ({
          type: "between",
          span,
          operand,
          low,
          high,
          negated,
        }),
      ),
      fc.tuple(node, node, node).map(
        ([condition, whenTrue, whenFalse]): Node => ({
          type: "if",
          span,
          condition,
          whenTrue,
          whenFalse,
        }),
      ),
      fc.array(node, { maxLength: 4 }).map((items): Node => ({ type: "list", span, items })),
      fc
        .tuple(name, argumentsOf(node))
        .map(
          ([word, given]): Node => ({ type: "call", span, word, wordSpan: span, arguments: given }),
        ),
      fc.tuple(node, name, fc.option(argumentsOf(node))).map(
        ([of, part, given]): Node => ({
          type: "part",
          span,
          of,
          part,
          partSpan: span,
          arguments: given,
        }),
      ),
    ),
  };
}).node;

/** The same tree with every span at 0, for comparing trees without their places. */
export function withoutSpans(node: Node): unknown {
  return JSON.parse(
    JSON.stringify(node, (key, value) =>
      key.toLowerCase().endsWith("span") && value !== null ? span : value,
    ),
  );
}
