import { rowOf } from "./add-cell.ts";
import { type Edit, editDefinition, withLines } from "./edit.ts";
import { isBlank, type LineRange } from "./lines.ts";
import type { Definition, NotebookDocument } from "./notebook-document.ts";

/** Takes a cell out with its minuted lines, and with one empty line where its row goes too. */
export function removeCell(notebook: NotebookDocument, name: string): Edit {
  return editDefinition(notebook, name, (definition) => {
    const { from, to } = linesToRemove(notebook, definition);
    return withLines(notebook, [{ at: from, remove: to - from, insert: [] }]);
  });
}

/** The lines of a definition; where it is alone in its row, the empty line behind it too. */
export function linesToRemove(notebook: NotebookDocument, definition: Definition): LineRange {
  const { from, to } = definition.lines;
  if (rowOf(notebook, definition).definitions.length > 1) return definition.lines;
  const isEmpty = (at: number) => isBlank(notebook.lines[at]?.text ?? "not there");
  const isParted = from === 0 || isEmpty(from - 1);
  if (isParted && isEmpty(to)) return { from, to: to + 1 };
  if (to === notebook.lines.length && isEmpty(from - 1)) return { from: from - 1, to };
  return { from, to };
}
