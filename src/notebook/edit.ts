import type { Problem } from "../problem/problem.ts";
import { type Splice, spliceLines } from "./lines.ts";
import { type Definition, definitionNamed, type NotebookDocument } from "./notebook-document.ts";
import { notebookOfLines } from "./read-notebook.ts";

/** Another notebook, or why the edit was not made. */
export type Edit =
  | { readonly ok: true; readonly notebook: NotebookDocument }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** The notebook with some stretches of lines replaced, given in the order of their lines. */
export function withLines(notebook: NotebookDocument, splices: readonly Splice[]): Edit {
  const lines = splices.toReversed().reduce(spliceLines, notebook.lines);
  return { ok: true, notebook: notebookOfLines(lines, notebook.file) };
}

/** What `edit` makes of the definition of that name. */
export function editDefinition(
  notebook: NotebookDocument,
  name: string,
  edit: (definition: Definition) => Edit,
): Edit {
  const definition = definitionNamed(notebook, name);
  if (definition !== undefined) return edit(definition);
  return refused({
    code: "no-such-cell",
    place: { cell: name },
    message: `The notebook has no cell named ${name}.`,
    found: name,
    expected: "the name of a cell of this notebook",
  });
}

export function refused(problem: Omit<Problem, "severity">): Edit {
  return { ok: false, problems: [{ severity: "stop", ...problem }] };
}
