import { isWidthLine } from "./cell-width.ts";
import { type Edit, editDefinition, withLines } from "./edit.ts";
import { isBlank, type Splice } from "./lines.ts";
import { isMinuted } from "./minuted.ts";
import type { Definition, NotebookDocument } from "./notebook-document.ts";

/**
 * Gives a cell another working. It may span several lines: those behind the first are indented
 * by two columns more than the name. Only the lines of the working change; minuted lines and its width stay.
 */
export function setWorking(notebook: NotebookDocument, name: string, working: string): Edit {
  return editDefinition(notebook, name, (definition) => {
    if (working === definition.working) return { ok: true, notebook };
    return withLines(notebook, workingSplices(notebook, definition, working));
  });
}

/** A working as lines: without empty lines or white space at their ends. */
export function workingLines(working: string): string[] {
  const lines = working.split(/\r\n|\n|\r/).map((line) => line.replace(/[ \t]+$/, ""));
  const [first = "", ...others] = lines.filter((line) => !isBlank(line));
  return others.reduce(joinWhereRead, [first.replace(/^[ \t]+/, "")]);
}

/** A line that would be read as minuted, or as a width, is kept in the line above it. */
function joinWhereRead(lines: readonly string[], line: string): string[] {
  if (!isMinuted(line) && !isWidthLine(line)) return [...lines, line];
  return [...lines.slice(0, -1), `${lines.at(-1)} ${line.trim()}`];
}

function workingSplices(
  notebook: NotebookDocument,
  definition: Definition,
  working: string,
): Splice[] {
  const at = definition.lines.from;
  const text = notebook.lines[at]!.text;
  const space = /^[ \t]+(?=[^ \t])/.exec(text.slice(definition.equals + 1))?.[0] ?? " ";
  const [first = "", ...others] = workingLines(working);
  const head = `${text.slice(0, definition.equals + 1)}${first === "" ? "" : space}${first}`;
  const insert = [head, ...others.map((line) => `${definition.indent}  ${line}`)];
  const rest = definition.segments.filter((segment) => segment.line !== at);
  return [
    { at, remove: 1, insert },
    ...rest.map((segment) => ({ at: segment.line, remove: 1, insert: [] })),
  ];
}
