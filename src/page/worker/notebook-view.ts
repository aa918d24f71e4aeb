import { type Block, titleOf } from "../../notebook/notebook-document.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import { periodAsSet } from "../../report/period-as-set.ts";
import type { BlockView, NotebookView } from "../protocol.ts";
import { restsOn } from "./rests-on.ts";

/** The notebook as the sheet lays it out. */
export function notebookView(
  session: NotebookSession<SettingChange>,
  { canUndo }: { readonly canUndo: boolean },
): NotebookView {
  const { document, undoName, redoName } = session;
  const { period, unit, madeBy, reader, smallestCount } = document.front;
  const asSet = periodAsSet(document);
  return {
    name: session.name,
    title: titleOf(document),
    ...(period !== undefined && { period }),
    ...(asSet !== period && asSet !== undefined && { periodAsSet: asSet }),
    ...(unit !== undefined && { unit }),
    ...(madeBy !== undefined && { madeBy }),
    ...(reader !== undefined && { reader }),
    restsOn: restsOn(session),
    ...(smallestCount !== undefined && { smallestCount }),
    blocks: document.blocks.map(blockView),
    problems: document.problems,
    ...(canUndo && undoName !== undefined && { undo: undoName }),
    ...(redoName !== undefined && { redo: redoName }),
  };
}

function blockView(block: Block): BlockView {
  if (block.type === "row") {
    return { type: "row", cells: block.definitions.map(({ name }) => name) };
  }
  if (block.type === "heading") return { type: "heading", level: block.level, text: block.text };
  return { type: "prose", text: block.text };
}
