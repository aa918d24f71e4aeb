import type { Node } from "./tree.ts";
import type { Value } from "./value.ts";
import type { Outcome, Vocabulary } from "./vocabulary.ts";

/** What a working can see: words to call, and the cells of the sheet by name. */
export interface Scope {
  readonly vocabulary: Vocabulary;
  /** The value of a cell, or undefined where no cell has that name. */
  cell(name: string): Value | undefined;
  /** Names to suggest in place of one that is not known. */
  names?(): Iterable<string>;
}

/** How a node is worked out: handed to the parts of the evaluation, which call it for children. */
export type Evaluate = (node: Node, scope: Scope) => Outcome;
