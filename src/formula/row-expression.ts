import { compileRow } from "./compile-row.ts";
import { fault } from "./fault.ts";
import { format } from "./format.ts";
import { type RowContext, refuse } from "./row-context.ts";
import type { Evaluate, Scope } from "./scope.ts";
import type { Node } from "./tree.ts";
import type {
  BoundRow,
  BoundSummary,
  RowColumn,
  RowColumns,
  RowExpression,
  RowOperand,
} from "./vocabulary.ts";

/**
 * An argument over the rows of a table that is not known yet. Names that are columns of the
 * table are its columns, and hide cells of the same name; all else is looked up in `scope`.
 */
export function rowExpression(node: Node, scope: Scope, evaluate: Evaluate): RowExpression {
  const context = (columns: RowColumns): RowContext => ({
    columns,
    vocabulary: scope.vocabulary,
    constant: (part) => evaluate(part, withColumnNames(scope, columns)),
    groups: null,
    problems: [],
    used: new Map(),
    gathered: [],
  });
  return {
    text: format(node),
    span: node.span,
    over: (columns) => bindRow(node, context(columns)),
    overGroups: (columns, groups) => bindSummary(node, { ...context(columns), groups }),
  };
}

/** A name that is neither column nor cell may have been meant as either: columns come first. */
function withColumnNames(scope: Scope, columns: RowColumns): Scope {
  return {
    vocabulary: scope.vocabulary,
    cell: (name) => scope.cell(name),
    names: () => [...columns.names(), ...(scope.names?.() ?? [])],
  };
}

function bindRow(node: Node, context: RowContext): BoundRow {
  const column = bind(node, context);
  if (column === null) return { ok: false, problems: context.problems };
  return { ok: true, column, names: [...context.used.keys()] };
}

function bindSummary(node: Node, context: RowContext): BoundSummary {
  const column = bind(node, context);
  if (column === null) return { ok: false, problems: context.problems };
  const { gathered, groups } = context;
  return {
    ok: true,
    column,
    names: [...context.used.keys()],
    missingIn: (group) => missingAmong(gathered, groups?.[group] ?? []),
  };
}

function missingAmong(gathered: readonly RowOperand[], rows: ArrayLike<number>): number {
  let count = 0;
  for (const operand of gathered) {
    for (let i = 0; i < rows.length; i++) if (operand.at(rows[i]!) === null) count++;
  }
  return count;
}

/** A bare column is itself; anything else is a column labelled with its text. */
function bind(node: Node, context: RowContext): RowColumn | null {
  const operand = compileRow(node, context);
  if (operand === null) return null;
  const column = node.type === "name" ? context.used.get(node.name) : undefined;
  return column ?? asColumn(operand, node, context);
}

function asColumn(operand: RowOperand, node: Node, context: RowContext): RowColumn | null {
  const { kind, item, order } = operand;
  const label = format(node);
  if (kind === "list") {
    if (item !== "text" && item !== "missing") return refuse(context, listInRow(node));
    const at = (row: number) => knownTexts(operand.at(row) as readonly (string | null)[] | null);
    return { kind: "codes", label, at, ...(order === undefined ? {} : { order }) };
  }
  return {
    kind: kind === "missing" ? "text" : kind,
    label,
    at: operand.at as RowColumn["at"],
    ...(order === undefined ? {} : { order }),
  };
}

/** Codes hold no missing among them: a list with one is missing as a whole. */
function knownTexts(texts: readonly (string | null)[] | null): readonly string[] | null {
  return texts?.every((text) => text !== null) === true ? (texts as readonly string[]) : null;
}

function listInRow(node: Node) {
  return fault("not-a-column", node.span, {
    message: "a list that is not of texts cannot stand in the rows of a table.",
    found: format(node),
    expected: "a number, a text, texts, a day, a length of time, or true or false",
  });
}
