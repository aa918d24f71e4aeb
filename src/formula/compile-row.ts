import { compileCall } from "./compile-call.ts";
import { compileOperator } from "./compile-operator.ts";
import { fault } from "./fault.ts";
import { format } from "./format.ts";
import { kindInWords } from "./kinds.ts";
import { noParts } from "./name-faults.ts";
import { truthFault } from "./operator-faults.ts";
import {
  constantOperand,
  mentionsColumn,
  notAColumn,
  type RowContext,
  refuse,
  unify,
} from "./row-context.ts";
import type { IfNode, ListNode, NameNode, Node } from "./tree.ts";
import type { RowOperand } from "./vocabulary.ts";

/**
 * Ties a tree to columns once, as closures over plain numbers, texts and truths, so that a row
 * costs no objects. Kinds are settled here: what does not fit is a problem before any row is
 * read. A part without columns is worked out once, as any working; what depends on a row follows
 * the same table of operations, and is missing where it cannot be reckoned (a division by 0).
 */
export function compileRow(node: Node, context: RowContext): RowOperand | null {
  if (!mentionsColumn(node, context)) return compileConstant(node, context);
  switch (node.type) {
    case "name":
      return compileColumn(node, context);
    case "list":
      return compileList(node, context);
    case "if":
      return compileIf(node, context);
    case "call":
      return compileCall(node, context, compileRow);
    case "part":
      return refuse(context, noParts(node, "a column"));
    case "unary":
    case "binary":
    case "is":
    case "oneOf":
    case "between":
      return compileOperator(node, context, compileRow);
    default:
      return compileConstant(node, context);
  }
}

function compileConstant(node: Node, context: RowContext): RowOperand | null {
  const outcome = context.constant(node);
  if (outcome.ok) {
    return constantOperand(outcome.value) ?? refuse(context, notAColumn(node, outcome.value));
  }
  context.problems.push(...outcome.problems);
  return null;
}

function compileColumn(node: NameNode, context: RowContext): RowOperand | null {
  const column = context.columns.column(node.name);
  if (column === undefined) return null;
  context.used.set(node.name, column);
  if (context.groups !== null) {
    return refuse(
      context,
      fault("column-not-summed-up", node.span, {
        message: `\`${node.name}\` has a value for every row, and one for the whole group is needed.`,
        found: node.name,
        expected: `a word that sums up, as in \`median(${node.name})\` or \`length(${node.name})\``,
      }),
    );
  }
  const order = column.order === undefined ? {} : { order: column.order };
  const at = (row: number) => column.at(row);
  if (column.kind === "codes") return { kind: "list", item: "text", at, ...order };
  return { kind: column.kind, at, ...order };
}

function compileList(node: ListNode, context: RowContext): RowOperand | null {
  const items = node.items.map((item) => compileRow(item, context));
  const operands = items.filter((item) => item !== null);
  if (operands.length < items.length) return null;
  const item = operands.map((operand) => operand.kind).reduce<RowOperand["item"]>(unify, "missing");
  const at = (row: number) => operands.map((operand) => operand.at(row));
  return { kind: "list", at, ...(item === undefined ? {} : { item }) };
}

function compileIf(node: IfNode, context: RowContext): RowOperand | null {
  const condition = compileRow(node.condition, context);
  const whenTrue = compileRow(node.whenTrue, context);
  const whenFalse = compileRow(node.whenFalse, context);
  if (condition === null || whenTrue === null || whenFalse === null) return null;
  if (condition.kind !== "truth" && condition.kind !== "missing") {
    return refuse(context, truthFault(node.condition, condition.kind, "if"));
  }
  const kind = unify(whenTrue.kind, whenFalse.kind);
  if (kind === undefined) return refuse(context, branchesDiffer(node, whenTrue, whenFalse));
  const item = unify(whenTrue.item ?? "missing", whenFalse.item ?? "missing");
  return {
    kind,
    ...(kind === "list" && item !== undefined ? { item } : {}),
    at(row) {
      const held = condition.at(row);
      if (held === null) return null;
      return held === true ? whenTrue.at(row) : whenFalse.at(row);
    },
  };
}

function branchesDiffer(node: IfNode, whenTrue: RowOperand, whenFalse: RowOperand) {
  return fault("branches-differ", node.whenFalse.span, {
    message: `\`then\` gives ${kindInWords(whenTrue.kind)} and \`else\` gives ${kindInWords(whenFalse.kind)}.`,
    found: format(node.whenFalse),
    expected: `${kindInWords(whenTrue.kind)}, or missing`,
  });
}
