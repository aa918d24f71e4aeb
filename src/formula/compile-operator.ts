import { betweenEnds } from "./between-ends.ts";
import type { Kind } from "./kinds.ts";
import { isSound, type Operation, operationFor } from "./operations.ts";
import { itemFault, listFault, operatorFault, signFault, truthFault } from "./operator-faults.ts";
import { type Compile, type RowContext, refuse } from "./row-context.ts";
import { both, either, opposite, type Truth } from "./three-valued.ts";
import type {
  BetweenNode,
  BinaryNode,
  IsNode,
  Node,
  OneOfNode,
  ReckoningOperator,
  UnaryNode,
} from "./tree.ts";
import type { RowOperand, RowValue } from "./vocabulary.ts";

/** Ties an operator or a test over columns; the same outcomes as `evaluateOperator`. */
export function compileOperator(
  node: UnaryNode | BinaryNode | IsNode | OneOfNode | BetweenNode,
  context: RowContext,
  compile: Compile,
): RowOperand | null {
  const tie = (child: Node) => compile(child, context);
  switch (node.type) {
    case "unary":
      return node.operator === "not" ? denied(node, tie, context) : negative(node, tie, context);
    case "binary":
      return node.operator === "and" || node.operator === "or"
        ? joined(node, tie, context)
        : operated(node, tie, context);
    case "is":
      return tested(node, tie);
    case "oneOf":
      return isOneOf(node, tie, context);
    case "between":
      return isBetween(node, tie, context);
  }
}

type Tie = (node: Node) => RowOperand | null;

function isTruth({ kind }: RowOperand): boolean {
  return kind === "truth" || kind === "missing";
}

function denied({ operand: node }: UnaryNode, tie: Tie, context: RowContext): RowOperand | null {
  const operand = tie(node);
  if (operand === null) return null;
  if (!isTruth(operand)) return refuse(context, truthFault(node, operand.kind, "not"));
  return { kind: "truth", at: (row) => opposite(operand.at(row) as Truth) };
}

function negative(node: UnaryNode, tie: Tie, context: RowContext): RowOperand | null {
  const operand = tie(node.operand);
  if (operand === null) return null;
  const { kind } = operand;
  if (kind !== "number" && kind !== "duration" && kind !== "missing") {
    return refuse(context, signFault(node, kind));
  }
  const at = (row: number) => {
    const held = operand.at(row);
    return held === null ? null : -(held as number);
  };
  return { kind, at };
}

function joined(node: BinaryNode, tie: Tie, context: RowContext): RowOperand | null {
  const left = tie(node.left);
  const right = tie(node.right);
  if (left === null || right === null) return null;
  for (const [side, operand] of [
    [node.left, left],
    [node.right, right],
  ] as const) {
    if (!isTruth(operand)) return refuse(context, truthFault(side, operand.kind, node.operator));
  }
  const decides = node.operator === "or";
  const join = decides ? either : both;
  const at = (row: number) => {
    const first = left.at(row) as Truth;
    return first === decides ? first : join(first, right.at(row) as Truth);
  };
  return { kind: "truth", at };
}

function operated(node: BinaryNode, tie: Tie, context: RowContext): RowOperand | null {
  const left = tie(node.left);
  const right = tie(node.right);
  if (left === null || right === null) return null;
  const operator = node.operator as ReckoningOperator;
  const operation = operationFor(operator, left.kind, right.kind);
  if (operation === undefined) return refuse(context, operatorFault(node, left.kind, right.kind));
  return { kind: operation.answers, at: applied(operation, left, right) };
}

function applied(operation: Operation, left: RowOperand, right: RowOperand): RowOperand["at"] {
  const { answers } = operation;
  const raw = (row: number): RowValue => {
    const first = left.at(row);
    if (first === null) return null;
    const second = right.at(row);
    return second === null ? null : operation.apply(first, second);
  };
  if (answers === "truth") return raw;
  return (row) => {
    const held = raw(row);
    return isSound(answers, held) ? held : null;
  };
}

function tested(node: IsNode, tie: Tie): RowOperand | null {
  const operand = tie(node.operand);
  if (operand === null) return null;
  const asksMissing = node.test === "missing";
  return { kind: "truth", at: (row) => (operand.at(row) === null) === asksMissing };
}

function isOneOf(node: OneOfNode, tie: Tie, context: RowContext): RowOperand | null {
  const operand = tie(node.operand);
  const list = tie(node.list);
  if (operand === null || list === null) return null;
  if (list.kind !== "list" && list.kind !== "missing") {
    return refuse(context, listFault(node.list, list.kind));
  }
  const isFit = list.kind === "missing" || isComparable(operand.kind, list.item);
  if (!isFit) return refuse(context, itemFault(node.list, operand.kind, list.item));
  const find = list.constant === undefined ? findIn(list) : findInConstant(list);
  const at = (row: number) => {
    const found = find(operand.at(row), row);
    return node.negated ? opposite(found) : found;
  };
  return { kind: "truth", at };
}

function isComparable(operand: Kind, item: Kind | undefined): boolean {
  return item !== undefined && operationFor("=", operand, item) !== undefined;
}

type Find = (held: RowValue, row: number) => Truth;

/** Reads the list in every row. An empty list holds nothing, not even what is missing. */
function findIn(list: RowOperand): Find {
  return (held, row) => {
    const items = list.at(row) as readonly RowValue[] | null;
    return items === null ? null : holds(items, held);
  };
}

function findInConstant(list: RowOperand): Find {
  const items = list.at(0) as readonly RowValue[] | null;
  if (items === null) return () => null;
  const known = new Set(items.filter((item) => item !== null));
  const otherwise = known.size < items.length && items.includes(null) ? null : false;
  return (held) => {
    if (held === null) return items.length === 0 ? false : null;
    return known.has(held) ? true : otherwise;
  };
}

function holds(items: readonly RowValue[], held: RowValue): Truth {
  if (held === null) return items.length === 0 ? false : null;
  if (items.includes(held)) return true;
  return items.includes(null) ? null : false;
}

function isBetween(node: BetweenNode, tie: Tie, context: RowContext): RowOperand | null {
  const value = tie(node.operand);
  if (value === null) return null;
  const tieOnce: Tie = (child) => (child === node.operand ? value : tie(child));
  const [low, high] = betweenEnds(node);
  const above = operated(low, tieOnce, context);
  const below = operated(high, tieOnce, context);
  if (above === null || below === null) return null;
  const at = (row: number) => {
    const within = both(above.at(row) as Truth, below.at(row) as Truth);
    return node.negated ? opposite(within) : within;
  };
  return { kind: "truth", at };
}
