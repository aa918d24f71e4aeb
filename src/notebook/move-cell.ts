import { addRow, rowOf } from "./add-cell.ts";
import { type Edit, editDefinition, withLines } from "./edit.ts";
import type { NotebookDocument } from "./notebook-document.ts";
import { mostCellsInRow } from "./read-blocks.ts";
import { linesToRemove } from "./remove-cell.ts";

export interface Move {
  readonly name: string;
  /** The cell that it shall stand behind. */
  readonly after: string;
  readonly row: "same" | "new";
}

/** Moves a cell with all its lines, as they are, behind another cell. */
export function moveCell(notebook: NotebookDocument, { name, after, row }: Move): Edit {
  if (name === after) return { ok: true, notebook };
  return editDefinition(notebook, after, () =>
    editDefinition(notebook, name, (definition) => {
      const lines = notebook.lines.slice(definition.lines.from, definition.lines.to);
      const texts = lines.map((line) => line.text);
      const { from, to } = linesToRemove(notebook, definition);
      const without = withLines(notebook, [{ at: from, remove: to - from, insert: [] }]);
      return without.ok ? putBehind(without.notebook, { after, row }, texts) : without;
    }),
  );
}

function putBehind(
  notebook: NotebookDocument,
  { after, row }: Omit<Move, "name">,
  texts: readonly string[],
): Edit {
  return editDefinition(notebook, after, (target) => {
    const inRow = rowOf(notebook, target);
    if (row === "new" || inRow.definitions.length >= mostCellsInRow) {
      return addRow(notebook, inRow.lines.to, texts);
    }
    const insert = reindented(texts, target.indent);
    return withLines(notebook, [{ at: target.lines.to, remove: 0, insert }]);
  });
}

/** The lines of a definition, its name at another depth. */
function reindented(texts: readonly string[], indent: string): string[] {
  const own = /^[ \t]*/.exec(texts[0] ?? "")?.[0] ?? "";
  return texts.map((text) => (text.startsWith(own) ? indent + text.slice(own.length) : text));
}
