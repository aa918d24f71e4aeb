import type { BookState } from "../host/book-state.ts";
import { isPooled } from "../host/open-departments.ts";
import type { WordView } from "../protocol.ts";

/** The questions that this notebook can ask: of cases, or of departments' aggregates. */
export function wordsToAsk({
  words,
  notebook,
  departments,
}: Pick<BookState, "words" | "notebook" | "departments">): readonly WordView[] {
  const hasOwn = departments !== undefined && !departments.invented;
  const pools = hasOwn || notebook?.restsOn?.includes("departments") === true;
  return words.filter((word) => {
    if (word.asks === undefined) return false;
    return isOfDepartments(word) ? pools : !isPooled(notebook);
  });
}

function isOfDepartments({ parameters }: WordView): boolean {
  return parameters.some(({ kinds }) => kinds.includes("departments"));
}
