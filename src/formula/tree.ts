import type { Span } from "../problem/problem.ts";
import type { DurationUnit } from "./value.ts";

/**
 * A working as a tree. Every node has its span in the text, without brackets that stand round
 * it; a parent's span reaches over the brackets of its children.
 */
export type Node =
  | NumberNode
  | DurationNode
  | TextNode
  | DayNode
  | TruthNode
  | MissingNode
  | ListNode
  | NameNode
  | UnaryNode
  | BinaryNode
  | IsNode
  | OneOfNode
  | BetweenNode
  | IfNode
  | CallNode
  | PartNode;

export interface NumberNode {
  readonly type: "number";
  readonly span: Span;
  readonly number: number;
  /** As typed, without spaces: `0.50`, `85%`. */
  readonly written: string;
}

export interface DurationNode {
  readonly type: "duration";
  readonly span: Span;
  readonly amount: number;
  readonly unit: DurationUnit;
  /** As typed, with one space: `90 days`. */
  readonly written: string;
}

export interface TextNode {
  readonly type: "text";
  readonly span: Span;
  readonly text: string;
}

export interface DayNode {
  readonly type: "day";
  readonly span: Span;
  /** Whole days since 1970-01-01. */
  readonly day: number;
}

export interface TruthNode {
  readonly type: "truth";
  readonly span: Span;
  readonly truth: boolean;
}

export interface MissingNode {
  readonly type: "missing";
  readonly span: Span;
}

export interface ListNode {
  readonly type: "list";
  readonly span: Span;
  readonly items: readonly Node[];
}

/** A cell of the sheet or, in a row expression, a column. */
export interface NameNode {
  readonly type: "name";
  readonly span: Span;
  readonly name: string;
}

export interface UnaryNode {
  readonly type: "unary";
  readonly span: Span;
  readonly operator: "-" | "not";
  readonly operand: Node;
}

export interface BinaryNode {
  readonly type: "binary";
  readonly span: Span;
  readonly operator: BinaryOperator;
  readonly operatorSpan: Span;
  readonly left: Node;
  readonly right: Node;
}

export type ComparisonOperator = "=" | "!=" | "<" | "<=" | ">" | ">=";
export type ArithmeticOperator = "+" | "-" | "*" | "/" | "^";
/** The operators that the table of operations holds: all but those of three-valued logic. */
export type ReckoningOperator = ArithmeticOperator | ComparisonOperator;
export type BinaryOperator = ReckoningOperator | "and" | "or";

/** `is missing`, `is known`. */
export interface IsNode {
  readonly type: "is";
  readonly span: Span;
  readonly operand: Node;
  readonly test: "missing" | "known";
}

/** `is one of [..]`, `is not one of [..]`. */
export interface OneOfNode {
  readonly type: "oneOf";
  readonly span: Span;
  readonly operand: Node;
  readonly list: Node;
  readonly negated: boolean;
}

/** `between low and high`, both ends included; `is not between low and high`. */
export interface BetweenNode {
  readonly type: "between";
  readonly span: Span;
  readonly operand: Node;
  readonly low: Node;
  readonly high: Node;
  readonly negated: boolean;
}

export interface IfNode {
  readonly type: "if";
  readonly span: Span;
  readonly condition: Node;
  readonly whenTrue: Node;
  readonly whenFalse: Node;
}

export interface Argument {
  readonly span: Span;
  /** `by` in `by: technique`; null for an argument by position. */
  readonly name: string | null;
  readonly nameSpan: Span | null;
  readonly value: Node;
}

export interface CallNode {
  readonly type: "call";
  readonly span: Span;
  readonly word: string;
  readonly wordSpan: Span;
  readonly arguments: readonly Argument[];
}

/** `how_often.rate`, and with arguments `when.at(90 days)`. */
export interface PartNode {
  readonly type: "part";
  readonly span: Span;
  readonly of: Node;
  readonly part: string;
  readonly partSpan: Span;
  /** null where the part is read, not called. */
  readonly arguments: readonly Argument[] | null;
}

/** The children of a node in the order of the text. */
export function childrenOf(node: Node): readonly Node[] {
  const children = childrenByType[node.type] as (node: Node) => readonly Node[];
  return children(node);
}

const none = (): readonly Node[] => [];

const childrenByType: {
  readonly [Type in Node["type"]]: (node: Extract<Node, { type: Type }>) => readonly Node[];
} = {
  number: none,
  duration: none,
  text: none,
  day: none,
  truth: none,
  missing: none,
  name: none,
  list: (node) => node.items,
  unary: (node) => [node.operand],
  binary: (node) => [node.left, node.right],
  is: (node) => [node.operand],
  oneOf: (node) => [node.operand, node.list],
  between: (node) => [node.operand, node.low, node.high],
  if: (node) => [node.condition, node.whenTrue, node.whenFalse],
  call: (node) => node.arguments.map((argument) => argument.value),
  part: (node) => [node.of, ...(node.arguments ?? []).map((argument) => argument.value)],
};
