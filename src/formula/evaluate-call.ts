import type { Problem, Span } from "../problem/problem.ts";
import { choiceFault, kindFault } from "./argument-faults.ts";
import { kindOfValue } from "./kinds.ts";
import { type Match, matchArguments } from "./match-arguments.ts";
import { unknownWord } from "./name-faults.ts";
import { rowExpression } from "./row-expression.ts";
import type { Evaluate, Scope } from "./scope.ts";
import type { Argument, CallNode } from "./tree.ts";
import type { GivenValue, Outcome, RowExpression, Word } from "./vocabulary.ts";

/** Calls a word of the vocabulary, and nothing else. */
export function evaluateCall(node: CallNode, scope: Scope, evaluate: Evaluate): Outcome {
  const word = scope.vocabulary.get(node.word);
  if (word === undefined) {
    const isCell = scope.cell(node.word) !== undefined;
    return { ok: false, problems: [unknownWord(node, scope.vocabulary, isCell)] };
  }
  return callWord({ word, given: node.arguments, span: node.span }, scope, evaluate);
}

export interface Call {
  readonly word: Word;
  readonly given: readonly Argument[];
  /** The whole call. */
  readonly span: Span;
}

/** Works out the arguments, checks their kinds and choices, and calls the word. */
export function callWord({ word, given, span }: Call, scope: Scope, evaluate: Evaluate): Outcome {
  const { matches, problems } = matchArguments(word, given, span);
  const worked = matches.map((match) => workedOut(match, scope, evaluate));
  const all = [...problems, ...worked.flatMap((each) => each.problems)];
  if (all.length > 0) return { ok: false, problems: all };
  const outcome = word.call({ ...sorted(worked), span });
  return outcome.ok ? outcome : { ok: false, problems: located(outcome.problems, span) };
}

/** One argument, worked out; `given` is null where there are problems. */
interface Worked {
  readonly match: Match;
  readonly given: GivenValue | RowExpression | null;
  readonly problems: readonly Problem[];
}

function workedOut(match: Match, scope: Scope, evaluate: Evaluate): Worked {
  const { parameter, argument } = match;
  const isFree = argument.name !== null && argument.name !== parameter.name;
  const name = isFree ? { name: argument.name } : {};
  if (parameter.takes === "row") {
    const given = { ...rowExpression(argument.value, scope, evaluate), ...name };
    return { match, given, problems: [] };
  }
  const outcome = evaluate(argument.value, scope);
  if (!outcome.ok) return { match, given: null, problems: outcome.problems };
  const { value } = outcome;
  const wrong = kindFault(kindOfValue(value), match) ?? choiceFault(value, match);
  if (wrong !== null) return { match, given: null, problems: [wrong] };
  return { match, given: { value, span: argument.value.span, ...name }, problems: [] };
}

function sorted(worked: readonly Worked[]) {
  const values = new Map<string, GivenValue>();
  const rows = new Map<string, RowExpression>();
  const repeated: (GivenValue | RowExpression)[] = [];
  for (const { match, given } of worked) {
    if (given === null) continue;
    if (match.parameter.repeated === true) repeated.push(given);
    else if ("over" in given) rows.set(match.parameter.name, given);
    else values.set(match.parameter.name, given);
  }
  return { values, rows, repeated };
}

/** Problems of a word that do not say where they lie, lie at the whole call. */
function located(problems: readonly Problem[], span: Span): readonly Problem[] {
  return problems.map((problem) =>
    problem.place.span === undefined ? { ...problem, place: { ...problem.place, span } } : problem,
  );
}
