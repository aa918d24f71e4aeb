import { columnsOfRow, isColumns, isWidthLine } from "./cell-width.ts";
import { type Edit, editDefinition, refused, withLines } from "./edit.ts";
import type { Splice } from "./lines.ts";
import type { NotebookDocument } from "./notebook-document.ts";

/** How many columns of its row a cell is given; null leaves it what the others leave. */
export interface CellWidth {
  readonly name: string;
  readonly columns: number | null;
}

/** Gives cells their widths; only the lines that hold these change. */
export function setWidths(notebook: NotebookDocument, widths: readonly CellWidth[]): Edit {
  return widths.reduce<Edit>((edit, width) => (edit.ok ? setWidth(edit.notebook, width) : edit), {
    ok: true,
    notebook,
  });
}

function setWidth(notebook: NotebookDocument, { name, columns }: CellWidth): Edit {
  if (columns !== null && !isColumns(columns)) return refuseWidth(name, columns);
  return editDefinition(notebook, name, (definition) => {
    if (definition.columns === (columns ?? undefined)) return { ok: true, notebook };
    const { from, to } = definition.lines;
    const range = notebook.lines.slice(from, to);
    const old = range.flatMap(({ text }, i) => (isWidthLine(text) ? [from + i] : []));
    const behind = Math.max(from, ...definition.segments.map(({ line }) => line)) + 1;
    const insert = columns === null ? [] : [`${definition.indent}  across ${columns} of 12`];
    return withLines(notebook, splicesOf(old, insert, behind));
  });
}

/** The first width line is written anew, others go; where there is none, it follows the working. */
function splicesOf(
  old: readonly number[],
  insert: readonly string[],
  behind: number,
): readonly Splice[] {
  if (old.length === 0) return [{ at: behind, remove: 0, insert }];
  return old.map((at, i) => ({ at, remove: 1, insert: i === 0 ? insert : [] }));
}

function refuseWidth(cell: string, columns: number): Edit {
  return refused({
    code: "width-out-of-row",
    place: { cell },
    message: "A cell cannot be given this width.",
    found: String(columns),
    expected: `from 1 to ${columnsOfRow} columns`,
  });
}
