import type { CaseColumn } from "../cases-protocol.ts";
import { freeTextColumns } from "./free-text.ts";
import type { LeafState } from "./leaf-state.ts";

interface Known {
  readonly columns: readonly CaseColumn[];
  readonly names: ReadonlySet<string>;
}

/** The same set as long as nothing changed, so that the grid is not laid out anew. */
const known = new WeakMap<LeafState, Known>();

/** Names of columns that the reader hid, and of free text that they did not ask for. */
export function hiddenColumns(
  look: LeafState,
  columns: readonly CaseColumn[],
): ReadonlySet<string> {
  const before = known.get(look);
  if (before?.columns === columns) return before.names;
  const free = [...freeTextColumns(columns)].filter((name) => !look.asked.has(name));
  const names = new Set([...look.hidden, ...free]);
  known.set(look, { columns, names });
  return names;
}

/** The state in which just these columns are hidden; other free text counts as asked for. */
export function withHidden(
  look: LeafState,
  columns: readonly CaseColumn[],
  hidden: ReadonlySet<string>,
): LeafState {
  const asked = new Set([...freeTextColumns(columns)].filter((name) => !hidden.has(name)));
  return { ...look, hidden, asked };
}
