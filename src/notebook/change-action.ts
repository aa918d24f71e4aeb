import { sectionOf } from "./agree-action.ts";
import { type Edit, refused, withLines } from "./edit.ts";
import type { NotebookDocument } from "./notebook-document.ts";

/** An action as it stands, and as it is to stand; without `to` it is taken out. */
export interface ActionChange {
  readonly from: string;
  readonly to?: string;
}

/**
 * Rewrites an action agreed, or takes it out: only the lines of its own item change. Of two that
 * read the same, the first.
 */
export function changeAction(notebook: NotebookDocument, change: ActionChange): Edit {
  const text = change.to?.replace(/\s+/g, " ").trim();
  const item = itemsOf(notebook).find((each) => each.text === change.from);
  if (item === undefined || text === "") return notChanged(change.from);
  const insert = text === undefined ? [] : [`- ${text}`];
  return withLines(notebook, [{ at: item.at, remove: item.count, insert }]);
}

interface Item {
  readonly text: string;
  /** Its first line, from 0, and how many it takes. */
  readonly at: number;
  readonly count: number;
}

/** The items under the heading, as `actionsOf` reads them, with where they stand. */
function itemsOf(notebook: NotebookDocument): readonly Item[] {
  return sectionOf(notebook).flatMap((block) => {
    if (block.type !== "prose" || block.form !== "list") return [];
    let at = block.lines.from;
    return block.text.split(/\n(?=[-*+] )/).map((written) => {
      const count = written.split("\n").length;
      const item = { text: written.replace(/^[-*+] +/, ""), at, count };
      at += count;
      return item;
    });
  });
}

function notChanged(found: string): Edit {
  return refused({
    code: "no-such-action",
    place: {},
    message:
      "The action was not changed: it is not in the notebook, or nothing would be left of it.",
    found,
    expected: "an action of the list under “Actions agreed”, and what it is to say",
    remedy: "to take it out, choose Remove",
  });
}
