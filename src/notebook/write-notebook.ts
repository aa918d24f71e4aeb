import { joinLines } from "./lines.ts";
import type { NotebookDocument } from "./notebook-document.ts";

/** The notebook as text: for one that was only read, byte for byte what was read. */
export function writeNotebook(notebook: NotebookDocument): string {
  return joinLines(notebook.lines);
}
