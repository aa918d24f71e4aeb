import type { Problem } from "../problem/problem.ts";
import { checkCall } from "./check-call.ts";
import { checkOperator } from "./check-operator.ts";
import type { Inspection, Surroundings } from "./inspection.ts";
import { kindInWords, plainKinds } from "./kinds.ts";
import { noParts, unknownName } from "./name-faults.ts";
import { truthFault } from "./operator-faults.ts";
import type { IfNode, NameNode, Node, PartNode } from "./tree.ts";

/**
 * What is wrong with a working before anything runs: names and words that do not exist,
 * arguments that do not fit the word, choices that are none, kinds that are known from literals
 * and from what words answer. Names in row arguments may be columns and are let through; they
 * are looked up when the table is known. Only problems of severity `stop` hinder the working.
 */
export function check(tree: Node, surroundings: Surroundings): readonly Problem[] {
  const problems: Problem[] = [];
  inspect(tree, { ...surroundings, inRow: false, problems });
  return problems;
}

function inspect(node: Node, inspection: Inspection): string | undefined {
  switch (node.type) {
    case "name":
      return inspectName(node, inspection);
    case "list":
      for (const item of node.items) inspect(item, inspection);
      return "list";
    case "if":
      return inspectIf(node, inspection);
    case "call":
      return checkCall(node, inspection, inspect);
    case "part":
      return inspectPart(node, inspection);
    case "unary":
    case "binary":
    case "is":
    case "oneOf":
    case "between":
      return checkOperator(node, inspection, inspect);
    default:
      return node.type;
  }
}

function inspectName(node: NameNode, { inRow, cells, vocabulary, problems }: Inspection) {
  const mayBeKnown = inRow || cells.has(node.name);
  if (!mayBeKnown) problems.push(unknownName(node, vocabulary, cells));
  return undefined;
}

function inspectIf({ condition, whenTrue, whenFalse }: IfNode, inspection: Inspection) {
  const kind = inspect(condition, inspection);
  if (kind !== undefined && kind !== "truth" && kind !== "missing") {
    inspection.problems.push(truthFault(condition, kind, "if"));
  }
  const first = inspect(whenTrue, inspection);
  const second = inspect(whenFalse, inspection);
  return first === second ? first : undefined;
}

/** The parts of a thing are known only when it is made; its arguments may see columns. */
function inspectPart(node: PartNode, inspection: Inspection): undefined {
  const kind = inspect(node.of, inspection);
  if (kind !== undefined && kind !== "missing" && plainKinds.has(kind)) {
    inspection.problems.push(noParts(node, kindInWords(kind)));
  }
  for (const { value } of node.arguments ?? []) inspect(value, { ...inspection, inRow: true });
}
