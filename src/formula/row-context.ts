import type { Problem } from "../problem/problem.ts";
import { fault } from "./fault.ts";
import { format } from "./format.ts";
import { type Kind, kindInWords, kindOfValue, rowValueOf } from "./kinds.ts";
import { matchArguments } from "./match-arguments.ts";
import { childrenOf, type Node } from "./tree.ts";
import type { Value } from "./value.ts";
import type { Outcome, RowColumn, RowColumns, RowOperand, Vocabulary } from "./vocabulary.ts";

/** What tying a row expression to columns can see, and what it notes on the way. */
export interface RowContext {
  readonly columns: RowColumns;
  readonly vocabulary: Vocabulary;
  /** Works out a part of the expression that mentions no column. */
  readonly constant: (node: Node) => Outcome;
  /** In a summary: the rows of each group. Else null. */
  readonly groups: readonly ArrayLike<number>[] | null;
  readonly problems: Problem[];
  /** Columns used, in the order of their first mention. */
  readonly used: Map<string, RowColumn>;
  /** In a summary: what was gathered, where missing values are left out and counted. */
  readonly gathered: RowOperand[];
}

/** The columns of the context, noting those that are looked up as used. */
export function notedColumns({ columns, used }: RowContext): RowColumns {
  return {
    names: () => columns.names(),
    column(name) {
      const column = columns.column(name);
      if (column !== undefined) used.set(name, column);
      return column;
    },
  };
}

/** How a node is tied to columns; null where it cannot be, and the context has the problems. */
export type Compile = (node: Node, context: RowContext) => RowOperand | null;

/** Notes a problem; the outcome is that of a node which cannot be tied. */
export function refuse(context: RowContext, problem: Problem): null {
  context.problems.push(problem);
  return null;
}

/**
 * Whether a node depends on a column. The row arguments of a call inside it see the columns of
 * their own table and do not count.
 */
export function mentionsColumn(node: Node, context: RowContext): boolean {
  if (node.type === "name") return context.columns.column(node.name) !== undefined;
  const word = node.type === "call" ? context.vocabulary.get(node.word) : undefined;
  if (node.type !== "call" || word === undefined) {
    return childrenOf(node).some((child) => mentionsColumn(child, context));
  }
  if (word.readsRow === true) return true;
  return matchArguments(word, node.arguments, node.span).matches.some(
    ({ parameter, argument }) =>
      parameter.takes === "value" && mentionsColumn(argument.value, context),
  );
}

/** A value that is the same in every row; null for things, which are no part of a row. */
export function constantOperand(value: Value): RowOperand | null {
  if (value.kind === "thing") return null;
  const held = rowValueOf(value);
  const operand = { kind: value.kind, constant: value, at: () => held };
  const item = value.kind === "list" ? itemKind(value.items) : undefined;
  return item === undefined ? operand : { ...operand, item };
}

/** The kind of all items of a list: missing for none, undefined where they differ. */
export function itemKind(items: readonly Value[]): Kind | undefined {
  return items.reduce<Kind | undefined>(
    (kind, item) => (item.kind === "thing" ? undefined : unify(kind, item.kind)),
    "missing",
  );
}

/** The kind of a value that may be of either: missing goes with all. Undefined where they differ. */
export function unify(one: Kind | undefined, other: Kind | undefined): Kind | undefined {
  if (one === "missing") return other;
  return other === "missing" || one === other ? one : undefined;
}

/** A value that cannot stand in a row. */
export function notAColumn(node: Node, value: Value): Problem {
  return fault("not-a-column", node.span, {
    message: `${kindInWords(kindOfValue(value))} as a whole cannot stand in the rows of a table.`,
    found: format(node),
    expected: "a number, a text, a day, a length of time, or true or false",
    ...(value.kind === "thing"
      ? { remedy: "read a part of it by name, as in `how_often.rate`" }
      : {}),
  });
}
