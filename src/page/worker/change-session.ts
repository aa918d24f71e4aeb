import type { Problem } from "../../problem/problem.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { Request } from "../protocol.ts";

/** Does what a request asks to change, and says what is wrong; undefined where it asks no change. */
export function changeSession(
  session: NotebookSession<SettingChange>,
  request: Request,
): readonly Problem[] | undefined {
  switch (request.ask) {
    case "open notebook":
      return session.openNotebook(request.name, request.text);
    case "open cases":
      return session.openCases(request.name, request.bytes);
    case "set working":
      return session.setWorking(request.cell, request.working);
    case "set setting":
      return session.setSetting(request.cell, request.to);
    case "add cell": {
      const { after, name, working } = request;
      return session.addCell({ after, name, working, row: "new" });
    }
    case "remove cell":
      return session.removeCell(request.cell);
    case "rename cell":
      return session.renameCell(request.cell, request.to);
    case "set title":
      return session.setTitle(request.title);
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
