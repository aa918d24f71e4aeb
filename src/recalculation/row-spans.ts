import { rowSpansIn } from "../formula/names-in.ts";
import { parse } from "../formula/parse.ts";
import type { Vocabulary } from "../formula/vocabulary.ts";

/** Where a working speaks of rows, so that a name there may be a column; nowhere if it is at fault. */
export function rowSpans(working: string, vocabulary: Vocabulary): ReturnType<typeof rowSpansIn> {
  const { tree } = parse(working);
  return tree === null ? [] : rowSpansIn(tree, vocabulary);
}
