import type { SettingChange } from "../../questions/settings/with-setting.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { SheetInput } from "../protocol.ts";

const inputs: readonly SheetInput[] = ["cases", "departments"];

/** What the cells of the notebook are fed from outside. */
export function restsOn({ sheet }: NotebookSession<SettingChange>): readonly SheetInput[] {
  return inputs.filter((input) => sheet.feeds(input).to.length > 0);
}
