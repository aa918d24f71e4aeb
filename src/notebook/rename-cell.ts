import { renameOutside } from "../formula/rename-in.ts";
import type { Span } from "../problem/problem.ts";
import { refuseName } from "./add-cell.ts";
import { type Edit, editDefinition, withLines } from "./edit.ts";
import type { Splice } from "./lines.ts";
import { type Definition, definitionsOf, type NotebookDocument } from "./notebook-document.ts";

export interface Renaming {
  readonly from: string;
  readonly to: string;
  /** Stretches of a working where the name means a column and so stays; none if left out. */
  readonly columnsIn?: (working: string) => readonly Span[];
}

/**
 * Gives a cell another name; every working that names it follows. Where two definitions share
 * the name, the first is renamed and the workings stay with the other.
 */
export function renameCell(notebook: NotebookDocument, renaming: Renaming): Edit {
  const { from } = renaming;
  const to = renaming.to.normalize("NFC");
  if (to === from) return { ok: true, notebook };
  const refusal = refuseName(notebook, to);
  if (refusal !== null) return refusal;
  return editDefinition(notebook, from, (definition) => {
    const definitions = definitionsOf(notebook);
    const isOnly = definitions.filter((other) => other.name === from).length === 1;
    const texts = new Map<number, string>();
    if (isOnly) {
      for (const other of definitions) {
        renameInWorking(notebook, other, { ...renaming, to }, texts);
      }
    }
    renameHead(notebook, definition, to, texts);
    const splices = [...texts].sort(([one], [other]) => one - other).map(asSplice);
    return withLines(notebook, splices);
  });
}

/** Writes into `texts`, by line, the lines of a working in which the name changes. */
function renameInWorking(
  notebook: NotebookDocument,
  { working, segments }: Definition,
  { from, to, columnsIn }: Renaming,
  texts: Map<number, string>,
): void {
  const leave = columnsIn?.(working) ?? [];
  const renamed = renameOutside(working, { from, to }, leave).split("\n");
  segments.forEach(({ line, start, end }, index) => {
    const { text } = notebook.lines[line]!;
    const changed = text.slice(0, start) + renamed[index]! + text.slice(end);
    if (changed !== text) texts.set(line, changed);
  });
}

/** Writes the new name before `=`, which stays in its column where there is room. */
function renameHead(
  notebook: NotebookDocument,
  { lines, indent, equals }: Definition,
  to: string,
  texts: Map<number, string>,
): void {
  const text = texts.get(lines.from) ?? notebook.lines[lines.from]!.text;
  const width = equals - indent.length;
  const written = text.slice(indent.length, equals);
  const isTight = !/[ \t]$/.test(written);
  const head = isTight ? to : `${to} `.padEnd(/[ \t]{2}$/.test(written) ? width : 0);
  texts.set(lines.from, indent + head + text.slice(equals));
}

function asSplice([at, text]: readonly [number, string]): Splice {
  return { at, remove: 1, insert: [text] };
}
