import { actionsHeading } from "./actions-heading.ts";
import { addRow } from "./add-cell.ts";
import { type Edit, refused, withLines } from "./edit.ts";
import type { Block, NotebookDocument } from "./notebook-document.ts";

/**
 * Adds an action, such as "2026-04-14: ask why gas was chosen", as the last item of the list under
 * the heading "Actions agreed", which is put at the end where there is none yet.
 */
export function agreeAction(notebook: NotebookDocument, action: string): Edit {
  const text = action.replace(/\s+/g, " ").trim();
  if (text === "") {
    return refused({
      code: "nothing-agreed",
      place: {},
      message: "There is nothing to agree.",
      expected: "what is to be done, and by whom",
    });
  }
  const item = `- ${text}`;
  const edit = underHeading(notebook, item) ?? atEnd(notebook, item);
  const isThere = !edit.ok || actionsOf(edit.notebook).includes(text);
  return isThere ? edit : noRoom(notebook);
}

/** The items of all lists under the heading. */
export function actionsOf(notebook: NotebookDocument): readonly string[] {
  return sectionOf(notebook).flatMap((block) =>
    block.type !== "prose" || block.form !== "list"
      ? []
      : block.text.split(/\n(?=[-*+] )/).map((item) => item.replace(/^[-*+] +/, "")),
  );
}

/** The heading and all blocks under it; none where there is no such heading. */
export function sectionOf({ blocks }: NotebookDocument): readonly Block[] {
  const from = blocks.findIndex(
    (block) =>
      block.type === "heading" && block.text.toLowerCase() === actionsHeading.toLowerCase(),
  );
  if (from < 0) return [];
  const length = blocks.slice(from + 1).findIndex((block) => block.type === "heading");
  return length < 0 ? blocks.slice(from) : blocks.slice(from, from + 1 + length);
}

function underHeading(notebook: NotebookDocument, item: string): Edit | undefined {
  const last = sectionOf(notebook).at(-1);
  if (last === undefined) return undefined;
  const at = last.lines.to;
  const continues = last.type === "prose" && last.form === "list";
  return continues
    ? withLines(notebook, [{ at, remove: 0, insert: [item] }])
    : addRow(notebook, at, [item]);
}

function atEnd(notebook: NotebookDocument, item: string): Edit {
  return addRow(notebook, notebook.lines.length, [`## ${actionsHeading}`, "", item]);
}

function noRoom({ lines }: NotebookDocument): Edit {
  return refused({
    code: "no-room-for-action",
    place: { line: lines.length },
    message: "An action cannot be added: the text above it runs on to the end of the notebook.",
    expected: "a line that closes the fence or the comment above",
    remedy: "close the fence or the comment",
  });
}
