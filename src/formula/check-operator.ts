import { betweenEnds } from "./between-ends.ts";
import type { Inspect, Inspection } from "./inspection.ts";
import { type Kind, plainKinds } from "./kinds.ts";
import { operationFor } from "./operations.ts";
import {
  comparedWithMissing,
  itemFault,
  listFault,
  operatorFault,
  signFault,
  truthFault,
} from "./operator-faults.ts";
import type { BetweenNode, BinaryNode, IsNode, Node, OneOfNode, UnaryNode } from "./tree.ts";

/** Notes what is wrong with the operands of an operator as far as their kinds are known. */
export function checkOperator(
  node: UnaryNode | BinaryNode | IsNode | OneOfNode | BetweenNode,
  inspection: Inspection,
  inspect: Inspect,
): string | undefined {
  const kindOf = (child: Node) => inspect(child, inspection);
  switch (node.type) {
    case "unary":
      return checkUnary(node, kindOf(node.operand), inspection);
    case "binary":
      return checkBinary(node, [kindOf(node.left), kindOf(node.right)], inspection);
    case "is":
      kindOf(node.operand);
      return "truth";
    case "oneOf":
      return checkOneOf(node, inspection, inspect);
    case "between": {
      const [low, high] = betweenEnds(node);
      const kind = kindOf(node.operand);
      checkBinary(low, [kind, kindOf(node.low)], inspection);
      checkBinary(high, [kind, kindOf(node.high)], inspection);
      return "truth";
    }
  }
}

type KnownKind = string | undefined;

function checkUnary(node: UnaryNode, kind: KnownKind, { problems }: Inspection): KnownKind {
  if (node.operator === "not") {
    if (!isTruth(kind)) problems.push(truthFault(node.operand, kind ?? "", "not"));
    return "truth";
  }
  const fits = kind === undefined || ["number", "duration", "missing"].includes(kind);
  if (!fits) problems.push(signFault(node, kind));
  return fits ? kind : undefined;
}

function checkBinary(
  node: BinaryNode,
  [left, right]: readonly [KnownKind, KnownKind],
  { problems }: Inspection,
): KnownKind {
  if (node.operator === "and" || node.operator === "or") {
    if (!isTruth(left)) problems.push(truthFault(node.left, left ?? "", node.operator));
    if (!isTruth(right)) problems.push(truthFault(node.right, right ?? "", node.operator));
    return "truth";
  }
  const isComparison = ["=", "!=", "<", "<=", ">", ">="].includes(node.operator);
  if (isComparison && (node.left.type === "missing" || node.right.type === "missing")) {
    problems.push(comparedWithMissing(node));
    return "truth";
  }
  const answers = answerOf(node, left, right);
  if (answers === null) problems.push(operatorFault(node, left, right));
  return isComparison ? "truth" : (answers ?? undefined);
}

/** The kind of the outcome, undefined where it is not known yet, null where the kinds clash. */
function answerOf({ operator }: BinaryNode, left: KnownKind, right: KnownKind): KnownKind | null {
  if (operator === "and" || operator === "or") return "truth";
  const isThing = [left, right].some((kind) => kind !== undefined && !plainKinds.has(kind));
  if (isThing) return null;
  // Missing stands for a kind that is not known yet: it fits wherever any kind would.
  const operation = operationFor(
    operator,
    (left ?? "missing") as Kind,
    (right ?? "missing") as Kind,
  );
  if (operation === undefined) return null;
  return left === undefined || right === undefined ? undefined : operation.answers;
}

function checkOneOf(node: OneOfNode, inspection: Inspection, inspect: Inspect): string {
  const operand = inspect(node.operand, inspection);
  const list = inspect(node.list, inspection);
  if (list !== undefined && list !== "list" && list !== "missing") {
    inspection.problems.push(listFault(node.list, list));
  }
  if (node.list.type !== "list" || operand === undefined) return "truth";
  const silent = { ...inspection, problems: [] };
  const clash = node.list.items
    .map((item) => inspect(item, silent))
    .find((item) => item !== undefined && !isComparable(operand, item));
  if (clash !== undefined) inspection.problems.push(itemFault(node.list, operand, clash));
  return "truth";
}

function isComparable(operand: string, item: string): boolean {
  if (!plainKinds.has(operand) || !plainKinds.has(item)) return false;
  return operationFor("=", operand as Kind, item as Kind) !== undefined;
}

function isTruth(kind: KnownKind): boolean {
  return kind === undefined || kind === "truth" || kind === "missing";
}
