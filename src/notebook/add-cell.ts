import { isName } from "../formula/keywords.ts";
import { type Edit, editDefinition, refused, withLines } from "./edit.ts";
import { isBlank } from "./lines.ts";
import {
  type Definition,
  definitionNamed,
  type NotebookDocument,
  type Row,
} from "./notebook-document.ts";
import { mostCellsInRow } from "./read-blocks.ts";
import { workingLines } from "./set-working.ts";

export interface NewCell {
  /** The cell that it stands behind; null puts it in a row of its own at the end. */
  readonly after: string | null;
  readonly name: string;
  readonly working: string;
  /** Beside the cell in its row (a full row makes it a new one), or in a row below. */
  readonly row: "same" | "new";
}

/** Adds a definition. Only its own lines, and empty lines around a new row, are new. */
export function addCell(notebook: NotebookDocument, cell: NewCell): Edit {
  const name = cell.name.normalize("NFC");
  const refusal = refuseName(notebook, name);
  if (refusal !== null) return refusal;
  const edit =
    cell.after === null
      ? addRow(notebook, notebook.lines.length, definitionLines({ ...cell, name }))
      : editDefinition(notebook, cell.after, (definition) =>
          addBehind(notebook, definition, { ...cell, name }),
        );
  if (!edit.ok || definitionNamed(edit.notebook, name) !== undefined) return edit;
  return refused({
    code: "no-room-for-cell",
    place: { cell: name, line: notebook.lines.length },
    message: "A cell cannot be added here: the text above it runs on to the end of the notebook.",
    expected: "a line that closes the fence or the comment above",
    remedy: "close the fence or the comment, or add the cell behind another cell",
  });
}

/** Why a name cannot be given to a cell of this notebook, or null where it can. */
export function refuseName(notebook: NotebookDocument, name: string): Edit | null {
  if (!isName(name)) {
    return refused({
      code: "not-a-name",
      place: { cell: name },
      message: "This cannot be the name of a cell.",
      found: name,
      expected: "letters, digits and underscores, beginning with a letter, such as how_often",
    });
  }
  const other = definitionNamed(notebook, name);
  if (other === undefined) return null;
  return refused({
    code: "name-taken",
    place: { cell: name, line: other.lines.from + 1 },
    message: `Another cell is named ${name} already.`,
    found: name,
    expected: "a name that no other cell has",
  });
}

function addBehind(notebook: NotebookDocument, definition: Definition, cell: NewCell): Edit {
  const row = rowOf(notebook, definition);
  if (cell.row === "new" || row.definitions.length >= mostCellsInRow) {
    return addRow(notebook, row.lines.to, definitionLines(cell, definition.indent));
  }
  const insert = definitionLines(cell, definition.indent, alignedWidth(notebook, row));
  return withLines(notebook, [{ at: definition.lines.to, remove: 0, insert }]);
}

/** Puts lines in as a row of their own, with an empty line on either side. */
export function addRow(notebook: NotebookDocument, at: number, lines: readonly string[]): Edit {
  const before = notebook.lines[at - 1];
  const after = notebook.lines[at];
  const insert = [
    ...(before === undefined || isBlank(before.text) ? [] : [""]),
    ...lines,
    ...(after === undefined || isBlank(after.text) ? [] : [""]),
  ];
  return withLines(notebook, [{ at, remove: 0, insert }]);
}

export function rowOf(notebook: NotebookDocument, definition: Definition): Row {
  const row = notebook.blocks.find(
    (block) => block.type === "row" && block.definitions.includes(definition),
  );
  if (row?.type !== "row") throw new Error(`the definition of ${definition.name} has no row`);
  return row;
}

function definitionLines(cell: NewCell, indent = "    ", width = 0): string[] {
  const [first = "", ...others] = workingLines(cell.working);
  const head = `${indent}${cell.name.padEnd(width)} =${first === "" ? "" : ` ${first}`}`;
  return [head, ...others.map((line) => `${indent}  ${line}`)];
}

/** The width of names where all `=` of the row stand below each other, else 0. */
function alignedWidth(notebook: NotebookDocument, row: Row): number {
  const widths = row.definitions.map(({ lines, equals, indent }) => {
    const name = notebook.lines[lines.from]!.text.slice(indent.length, equals);
    return name.endsWith(" ") ? name.length - 1 : 0;
  });
  return widths.every((width) => width === widths[0]) ? (widths[0] ?? 0) : 0;
}
