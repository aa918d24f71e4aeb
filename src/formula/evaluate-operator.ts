import type { Problem } from "../problem/problem.ts";
import { betweenEnds } from "./between-ends.ts";
import { fault } from "./fault.ts";
import { format } from "./format.ts";
import { type Kind, kindOfValue, rowValueOf, valueOfRow } from "./kinds.ts";
import { isSound, operationFor } from "./operations.ts";
import { itemFault, listFault, operatorFault, signFault, truthFault } from "./operator-faults.ts";
import type { Evaluate, Scope } from "./scope.ts";
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
import { missing, type Value } from "./value.ts";
import type { Outcome } from "./vocabulary.ts";

/** Works out an operator or a test over its operands. */
export function evaluateOperator(
  node: UnaryNode | BinaryNode | IsNode | OneOfNode | BetweenNode,
  scope: Scope,
  evaluate: Evaluate,
): Outcome {
  const work: Work = (child) => evaluate(child, scope);
  switch (node.type) {
    case "unary":
      return node.operator === "not" ? denied(node, work) : negative(node, work);
    case "binary":
      return node.operator === "and" || node.operator === "or"
        ? joined(node, work)
        : operated(node, work);
    case "is":
      return withValues([node.operand], work, ([value]) =>
        truth((value?.kind === "missing") === (node.test === "missing")),
      );
    case "oneOf":
      return withValues([node.operand, node.list], work, ([value, list]) =>
        isOneOf(node, value!, list!),
      );
    case "between":
      return withValues([node.operand, node.low, node.high], work, ([value, low, high]) =>
        isBetween(node, value!, { low: low!, high: high! }),
      );
  }
}

type Work = (node: Node) => Outcome;

/** The values of several nodes, or the problems of all of them. */
function withValues(
  nodes: readonly Node[],
  work: Work,
  then: (values: readonly Value[]) => Outcome,
): Outcome {
  const outcomes = nodes.map(work);
  const problems = outcomes.flatMap((outcome) => (outcome.ok ? [] : outcome.problems));
  if (problems.length > 0) return { ok: false, problems };
  return then(outcomes.flatMap((outcome) => (outcome.ok ? [outcome.value] : [])));
}

function truth(truth: Truth): Outcome {
  return { ok: true, value: truth === null ? missing : { kind: "truth", truth } };
}

function failed(problem: Problem): Outcome {
  return { ok: false, problems: [problem] };
}

function truthOf(value: Value): Truth | undefined {
  if (value.kind === "missing") return null;
  return value.kind === "truth" ? value.truth : undefined;
}

function denied(node: UnaryNode, work: Work): Outcome {
  return withValues([node.operand], work, ([value]) => {
    const held = truthOf(value!);
    if (held === undefined) return failed(truthFault(node.operand, kindOfValue(value!), "not"));
    return truth(opposite(held));
  });
}

/** `and`, `or`: the right side is left alone where the left side decides. */
function joined({ left, right, operator }: BinaryNode, work: Work): Outcome {
  const first = truthSide(left, operator, work);
  if (!first.ok) return first.outcome;
  if (first.held === (operator === "or")) return truth(first.held);
  const second = truthSide(right, operator, work);
  if (!second.ok) return second.outcome;
  return truth((operator === "or" ? either : both)(first.held, second.held));
}

type Side =
  | { readonly ok: true; readonly held: Truth }
  | { readonly ok: false; readonly outcome: Outcome };

function truthSide(node: Node, operator: string, work: Work): Side {
  const outcome = work(node);
  if (!outcome.ok) return { ok: false, outcome };
  const held = truthOf(outcome.value);
  if (held !== undefined) return { ok: true, held };
  const problem = truthFault(node, kindOfValue(outcome.value), operator);
  return { ok: false, outcome: failed(problem) };
}

function negative(node: UnaryNode, work: Work): Outcome {
  return withValues([node.operand], work, ([value]) => {
    if (value?.kind === "missing") return { ok: true, value };
    if (value?.kind === "number") return { ok: true, value: { ...value, number: -value.number } };
    if (value?.kind === "duration") {
      return { ok: true, value: { ...value, amount: -value.amount, days: -value.days } };
    }
    return failed(signFault(node, kindOfValue(value!)));
  });
}

function operated(node: BinaryNode, work: Work): Outcome {
  return withValues([node.left, node.right], work, ([left, right]) => {
    const applied = apply(node.operator as ReckoningOperator, left!, right!);
    if (applied === null) {
      return failed(operatorFault(node, kindOfValue(left!), kindOfValue(right!)));
    }
    if (isSound(applied.kind as Kind, rowValueOf(applied))) return { ok: true, value: applied };
    return failed(applied.kind === "day" ? noSuchDay(node) : notFinite(node, right!));
  });
}

/** The outcome of an operator over two values, or null where it does not stand between them. */
function apply(operator: ReckoningOperator, left: Value, right: Value): PlainValue | null {
  if (left.kind === "thing" || right.kind === "thing") return null;
  const operation = operationFor(operator, left.kind, right.kind);
  if (operation === undefined) return null;
  if (left.kind === "missing" || right.kind === "missing") return missing;
  const held = operation.apply(rowValueOf(left), rowValueOf(right));
  return valueOfRow(held, operation.answers) as PlainValue;
}

type PlainValue = Exclude<Value, { kind: "thing" }>;

function notFinite(node: BinaryNode, right: Value): Problem {
  const byZero = node.operator === "/" && rowValueOf(right as PlainValue) === 0;
  return fault("not-finite", node.span, {
    message: byZero ? "this divides by 0." : "the outcome is too large, or no number at all.",
    found: format(node),
    remedy: byZero
      ? "ask first, as in `if eyes = 0 then missing else failures / eyes`"
      : "look at the values that go in",
  });
}

function noSuchDay(node: BinaryNode): Problem {
  return fault("not-finite", node.span, {
    message: "this day lies outside the calendar.",
    found: format(node),
    expected: "a day from 0001-01-01 to 9999-12-31",
  });
}

/** True where equal to an item; else missing where that is unknown for any; else false. */
function isOneOf(node: OneOfNode, value: Value, list: Value): Outcome {
  if (list.kind === "missing") return truth(null);
  if (list.kind !== "list") return failed(listFault(node.list, kindOfValue(list)));
  let found: Truth = false;
  for (const item of list.items) {
    const equal = apply("=", value, item);
    if (equal === null) {
      return failed(itemFault(node.list, kindOfValue(value), kindOfValue(item)));
    }
    found = either(found, truthOf(equal) ?? null);
  }
  return truth(node.negated ? opposite(found) : found);
}

function isBetween(
  node: BetweenNode,
  value: Value,
  { low, high }: { readonly low: Value; readonly high: Value },
): Outcome {
  const [aboveNode, belowNode] = betweenEnds(node);
  const above = apply(">=", value, low);
  const below = apply("<=", value, high);
  if (above === null) {
    return failed(operatorFault(aboveNode, kindOfValue(value), kindOfValue(low)));
  }
  if (below === null) {
    return failed(operatorFault(belowNode, kindOfValue(value), kindOfValue(high)));
  }
  const within = both(truthOf(above) ?? null, truthOf(below) ?? null);
  return truth(node.negated ? opposite(within) : within);
}
