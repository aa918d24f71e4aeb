import { fieldNamed } from "../../cases/dictionary.ts";
import type { CaseColumn } from "../cases-protocol.ts";

/**
 * Names of columns of the department's own in which anything may be written, a name or an address
 * among it: they are shown only where the reader asks for them.
 */
export function freeTextColumns(columns: readonly CaseColumn[]): ReadonlySet<string> {
  const free = columns.filter(
    ({ name, kind }) => kind === "text" && fieldNamed(name) === undefined,
  );
  return new Set(free.map(({ name }) => name));
}
