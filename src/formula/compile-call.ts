import { choiceFault, kindFault } from "./argument-faults.ts";
import { fault } from "./fault.ts";
import { type Match, matchArguments } from "./match-arguments.ts";
import { unknownWord } from "./name-faults.ts";
import {
  type Compile,
  mentionsColumn,
  notedColumns,
  type RowContext,
  refuse,
} from "./row-context.ts";
import type { CallNode } from "./tree.ts";
import type { GivenOperand, RowOperand, RowValue, Word } from "./vocabulary.ts";

/** Ties a call with columns among its arguments: the word must know how to work by row. */
export function compileCall(
  node: CallNode,
  context: RowContext,
  compile: Compile,
): RowOperand | null {
  const word = context.vocabulary.get(node.word);
  if (word === undefined) return refuse(context, unknownWord(node, context.vocabulary, false));
  const { matches, problems } = matchArguments(word, node.arguments, node.span);
  context.problems.push(...problems);
  if (problems.length > 0) return null;
  if (word.perRow === undefined || matches.some(({ parameter }) => parameter.takes === "row")) {
    return refuse(context, notByRow(node));
  }
  const tied = matches.map((match) => tieArgument(word, match, { context, compile }));
  if (tied.some((each) => each === null)) return null;
  const outcome = word.perRow({
    ...sorted(matches, tied as GivenOperand[]),
    columns: notedColumns(context),
    span: node.span,
  });
  if (outcome.ok) return outcome.operand;
  context.problems.push(...outcome.problems);
  return null;
}

function notByRow({ word, wordSpan }: CallNode) {
  return fault("not-by-row", wordSpan, {
    message: `\`${word}\` cannot be worked out row by row.`,
    found: word,
    remedy: "give it a cell of its own, and name that cell here",
  });
}

function tieArgument(
  word: Word,
  match: Match,
  { context, compile }: { readonly context: RowContext; readonly compile: Compile },
): GivenOperand | null {
  const { value } = match.argument;
  const gathers =
    context.groups !== null &&
    word.overRows !== undefined &&
    match.parameter.kinds.includes("list") &&
    mentionsColumn(value, context);
  const operand = compile(value, gathers ? { ...context, groups: null } : context);
  if (operand === null) return null;
  const tied = gathers ? gather(operand, word.overRows === "known", context) : operand;
  const wrong =
    kindFault(tied.kind, match) ??
    (tied.constant === undefined ? null : choiceFault(tied.constant, match));
  return wrong === null ? { operand: tied, span: value.span } : refuse(context, wrong);
}

/** The values of the rows of a group as one list, without the missing ones where `knownOnly`. */
function gather(operand: RowOperand, knownOnly: boolean, context: RowContext): RowOperand {
  const groups = context.groups ?? [];
  if (knownOnly) context.gathered.push(operand);
  const at = (group: number) => {
    const rows = groups[group] ?? [];
    const held: RowValue[] = [];
    for (let i = 0; i < rows.length; i++) {
      const value = operand.at(rows[i]!);
      if (value !== null || !knownOnly) held.push(value);
    }
    return held;
  };
  return { kind: "list", item: operand.kind, at };
}

function sorted(matches: readonly Match[], tied: readonly GivenOperand[]) {
  const values = new Map<string, GivenOperand>();
  const repeated: GivenOperand[] = [];
  matches.forEach(({ parameter }, position) => {
    const given = tied[position]!;
    if (parameter.repeated === true) repeated.push(given);
    else values.set(parameter.name, given);
  });
  return { values, repeated };
}
