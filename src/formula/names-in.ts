import type { Span } from "../problem/problem.ts";
import { matchArguments } from "./match-arguments.ts";
import { childrenOf, type Node } from "./tree.ts";
import type { Vocabulary } from "./vocabulary.ts";

export interface Names {
  /** Names that must be cells. */
  readonly certain: ReadonlySet<string>;
  /**
   * Names in row arguments, and in the arguments of words that are not known yet (parts of
   * things, words that do not exist): cells, unless a column of the table hides them. A name may
   * be in both.
   */
  readonly perhaps: ReadonlySet<string>;
}

/** The names of cells that a working mentions. */
export function namesIn(tree: Node, vocabulary: Vocabulary): Names {
  const found = { certain: new Set<string>(), perhaps: new Set<string>() };
  collect(tree, vocabulary, found);
  return found;
}

/**
 * The spans of the arguments whose names `namesIn` calls `perhaps`. They do not overlap: of one
 * inside another, the outer is given.
 */
export function rowSpansIn(tree: Node, vocabulary: Vocabulary): readonly Span[] {
  const overRow = argumentsOverRow(tree, vocabulary);
  return childrenOf(tree).flatMap((child) =>
    overRow.has(child) ? [child.span] : rowSpansIn(child, vocabulary),
  );
}

interface Found {
  readonly certain: Set<string>;
  readonly perhaps: Set<string>;
}

function collect(node: Node, vocabulary: Vocabulary, { certain, perhaps }: Found): void {
  if (node.type === "name") certain.add(node.name);
  const overRow = argumentsOverRow(node, vocabulary);
  for (const child of childrenOf(node)) {
    const found = overRow.has(child) ? { certain: perhaps, perhaps } : { certain, perhaps };
    collect(child, vocabulary, found);
  }
}

/** The values of the arguments of a call that are, or may be, expressions over a row. */
function argumentsOverRow(node: Node, vocabulary: Vocabulary): ReadonlySet<Node> {
  if (node.type !== "call" && node.type !== "part") return nothing;
  const given = node.arguments ?? [];
  const word = node.type === "call" ? vocabulary.get(node.word) : undefined;
  const overRow = new Set(given.map((argument) => argument.value));
  if (word === undefined) return overRow;
  for (const { parameter, argument } of matchArguments(word, given, node.span).matches) {
    if (parameter.takes === "value") overRow.delete(argument.value);
  }
  return overRow;
}

const nothing: ReadonlySet<Node> = new Set();
