import { readFileSync } from "node:fs";
import { readCases } from "../../../src/cases/read-cases.ts";
import { definitionsOf } from "../../../src/notebook/notebook-document.ts";
import type { EyeRecord } from "../../../src/outcomes/eye-record.ts";
import { vocabulary } from "../../../src/questions/vocabulary.ts";
import { NotebookSession } from "../../../src/recalculation/notebook-session.ts";

/** A settled session of a shipped notebook over the invented cases, or over other bytes. */
export async function sessionOf(
  notebook: string,
  bytes: Uint8Array = readFileSync("data-demo/repairs.csv"),
): Promise<NotebookSession<never>> {
  const session = new NotebookSession<never>({
    vocabulary,
    version: "0",
    readCases: (given, matching) => readCases(given, { matching, today: 20_543 }),
    withSetting: (working) => working,
  });
  session.openNotebook("notebook.md", readFileSync(`notebooks/${notebook}.md`, "utf8"));
  session.openCases("repairs.csv", new Uint8Array(bytes));
  await session.sheet.settled();
  return session;
}

/** The first cell that holds eyes. */
export function eyesIn(session: NotebookSession<never>): EyeRecord {
  for (const { name } of definitionsOf(session.document)) {
    const state = session.sheet.state(name);
    if (state.status !== "current" || state.value.kind !== "thing") continue;
    if (state.value.of === "eyes") return state.value.content as EyeRecord;
  }
  throw new Error("no cell holds eyes");
}
