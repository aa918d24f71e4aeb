import type { Problem } from "../problem/problem.ts";
import type { Node } from "./tree.ts";
import type { Vocabulary } from "./vocabulary.ts";

/** What a working is checked against. */
export interface Surroundings {
  readonly vocabulary: Vocabulary;
  /** The names of the sheet's cells. */
  readonly cells: ReadonlySet<string>;
}

/** The surroundings, and where the inspection stands. */
export interface Inspection extends Surroundings {
  /** Whether names may be columns here. */
  readonly inRow: boolean;
  readonly problems: Problem[];
}

/**
 * Notes the problems of a node and gives its kind as far as it is known: a plain kind, or what
 * the thing is `of`. Handed to the parts of the check, which call it for children.
 */
export type Inspect = (node: Node, inspection: Inspection) => string | undefined;
