import { addRow, rowOf } from "./add-cell.ts";
import { type Edit, editDefinition, withLines } from "./edit.ts";
import type { NotebookDocument } from "./notebook-document.ts";
import { mostCellsInRow } from "./read-blocks.ts";
import { linesToRemove } from "./remove-cell.ts";

export interface Move {
  readonly name: string;
  /** The cell that it shall stand beside. */
  readonly beside: string;
  /** Before or behind that cell, or its row. */
  readonly side: "before" | "behind";
  readonly row: "same" | "new";
}

/** Moves a cell with all its lines, as they are, before or behind another cell. */
export function moveCell(notebook: NotebookDocument, move: Move): Edit {
  const { name, beside } = move;
  if (name === beside) return { ok: true, notebook };
  return editDefinition(notebook, beside, () =>
    editDefinition(notebook, name, (definition) => {
      const lines = notebook.lines.slice(definition.lines.from, definition.lines.to);
      const texts = lines.map((line) => line.text);
      const { from, to } = linesToRemove(notebook, definition);
      const without = withLines(notebook, [{ at: from, remove: to - from, insert: [] }]);
      return without.ok ? putBeside(without.notebook, move, texts) : without;
    }),
  );
}

function putBeside(
  notebook: NotebookDocument,
  { beside, side, row }: Omit<Move, "name">,
  texts: readonly string[],
): Edit {
  const edge = side === "before" ? "from" : "to";
  return editDefinition(notebook, beside, (target) => {
    const inRow = rowOf(notebook, target);
    if (row === "new" || inRow.definitions.length >= mostCellsInRow) {
      return addRow(notebook, inRow.lines[edge], texts);
    }
    const insert = reindented(texts, target.indent);
    return withLines(notebook, [{ at: target.lines[edge], remove: 0, insert }]);
  });
}

/** The lines of a definition, its name at another depth. */
function reindented(texts: readonly string[], indent: string): string[] {
  const own = /^[ \t]*/.exec(texts[0] ?? "")?.[0] ?? "";
  return texts.map((text) => (text.startsWith(own) ? indent + text.slice(own.length) : text));
}
