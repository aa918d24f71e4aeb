import { evaluateCall } from "./evaluate-call.ts";
import { evaluateOperator } from "./evaluate-operator.ts";
import { evaluatePart } from "./evaluate-part.ts";
import { kindOfValue } from "./kinds.ts";
import { unknownName } from "./name-faults.ts";
import { truthFault } from "./operator-faults.ts";
import type { Scope } from "./scope.ts";
import type { IfNode, NameNode, Node } from "./tree.ts";
import { duration, missing, type Value } from "./value.ts";
import type { Outcome } from "./vocabulary.ts";

/**
 * Works out a working. It ends always (there are no loops and no recursion but the tree's own),
 * touches nothing but the vocabulary and the cells handed in, and never throws for what a user
 * wrote: what cannot be worked out is a problem with its span.
 *
 * Missing operands make the outcome missing; `and` and `or` are three-valued and leave their
 * right side alone where the left side decides; `if` works out only the branch it takes, and is
 * missing where its condition is. A number that is not finite (a division by 0) is a problem
 * here, and missing in the rows of a table.
 */
export function evaluate(tree: Node, scope: Scope): Outcome {
  switch (tree.type) {
    case "number":
      return valued({ kind: "number", number: tree.number });
    case "text":
      return valued({ kind: "text", text: tree.text });
    case "day":
      return valued({ kind: "day", day: tree.day });
    case "truth":
      return valued({ kind: "truth", truth: tree.truth });
    case "missing":
      return valued(missing);
    case "duration":
      return valued(duration(tree.amount, tree.unit));
    case "name":
      return evaluateName(tree, scope);
    case "list":
      return evaluateList(tree.items, scope);
    case "if":
      return evaluateIf(tree, scope);
    case "call":
      return evaluateCall(tree, scope, evaluate);
    case "part":
      return evaluatePart(tree, scope, evaluate);
    default:
      return evaluateOperator(tree, scope, evaluate);
  }
}

function valued(value: Value): Outcome {
  return { ok: true, value };
}

function evaluateName(node: NameNode, scope: Scope): Outcome {
  const value = scope.cell(node.name);
  if (value !== undefined) return valued(value);
  return { ok: false, problems: [unknownName(node, scope.vocabulary, scope.names?.())] };
}

/** Faults of all items are told together. */
function evaluateList(nodes: readonly Node[], scope: Scope): Outcome {
  const outcomes = nodes.map((node) => evaluate(node, scope));
  const problems = outcomes.flatMap((outcome) => (outcome.ok ? [] : outcome.problems));
  if (problems.length > 0) return { ok: false, problems };
  const items = outcomes.flatMap((outcome) => (outcome.ok ? [outcome.value] : []));
  return valued({ kind: "list", items });
}

function evaluateIf({ condition, whenTrue, whenFalse }: IfNode, scope: Scope): Outcome {
  const asked = evaluate(condition, scope);
  if (!asked.ok || asked.value.kind === "missing") return asked;
  if (asked.value.kind !== "truth") {
    return { ok: false, problems: [truthFault(condition, kindOfValue(asked.value), "if")] };
  }
  return evaluate(asked.value.truth ? whenTrue : whenFalse, scope);
}
