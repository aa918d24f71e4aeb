import { dayText } from "../../formula/calendar.ts";
import { addCell } from "../../notebook/add-cell.ts";
import { agreeAction } from "../../notebook/agree-action.ts";
import { changeAction } from "../../notebook/change-action.ts";
import { definitionNamed } from "../../notebook/notebook-document.ts";
import { setTitlePage } from "../../notebook/set-front-matter.ts";
import { setWidths } from "../../notebook/set-widths.ts";
import type { Problem } from "../../problem/problem.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { Request } from "../protocol.ts";

/**
 * Does what a request asks to change, and says what is wrong; undefined where it asks no change.
 * `today`: whole days since 1970-01-01.
 */
export function changeSession(
  session: NotebookSession<SettingChange>,
  request: Request,
  today: number,
): readonly Problem[] | undefined {
  switch (request.ask) {
    case "open notebook":
      return session.openNotebook(request.name, request.text);
    case "set working":
      return session.setWorking(request.cell, request.working);
    case "set setting":
      return session.setSetting(request.cell, request.to);
    case "add cell": {
      const { after, name, working, row = "new" } = request;
      return session.addCell({ after, name, working, row });
    }
    case "copy cell":
      return copyCell(session, request);
    case "move cell":
      return session.moveCell({ name: request.cell, ...request.to });
    case "resize cell":
      return session.edit(`resize ${request.cell}`, (document) =>
        setWidths(document, request.widths),
      );
    case "minute":
      return session.addMinuted(request.cell, { day: today, text: request.text });
    case "agree":
      return session.edit("agree an action", (document) =>
        agreeAction(document, `${dayText(today)}: ${request.action}`),
      );
    case "change action":
      return session.edit(
        `${request.to === undefined ? "remove" : "change"} an action`,
        (document) => changeAction(document, request),
      );
    case "remove cell":
      return session.removeCell(request.cell);
    case "rename cell":
      return session.renameCell(request.cell, request.to);
    case "set title page":
      return session.edit("change the title page", (document) =>
        setTitlePage(document, request.page),
      );
    case "undo":
      session.undo();
      return [];
    case "redo":
      session.redo();
      return [];
    default:
      return undefined;
  }
}

/** Puts the same working beside the cell, under another name and as wide as it is given to be. */
function copyCell(
  session: NotebookSession<SettingChange>,
  { cell, name }: Extract<Request, { ask: "copy cell" }>,
): readonly Problem[] {
  return session.edit(`copy ${cell}`, (document) => {
    const { working = "", columns } = definitionNamed(document, cell) ?? {};
    const added = addCell(document, { after: cell, name, working, row: "same" });
    return added.ok && columns !== undefined
      ? setWidths(added.notebook, [{ name, columns }])
      : added;
  });
}
