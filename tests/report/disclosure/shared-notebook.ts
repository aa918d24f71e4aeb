import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { readCases } from "../../../src/cases/read-cases.ts";
import type { Answered } from "../../../src/questions/answer.ts";
import { vocabulary } from "../../../src/questions/vocabulary.ts";
import { NotebookSession } from "../../../src/recalculation/notebook-session.ts";
import type { ReportedCell, ReportInput } from "../../../src/report/report-input.ts";
import { reportOfSession } from "../../../src/report/report-of-session.ts";

/** The report of a notebook over the bytes of a file, as the department has it. */
export function reportOf(path: string, bytes: Uint8Array): Promise<ReportInput> {
  return reportOfText(readFileSync(path, "utf8"), bytes);
}

/** The same of a notebook's text. */
export async function reportOfText(text: string, bytes: Uint8Array): Promise<ReportInput> {
  const session = new NotebookSession<never>({
    vocabulary,
    version: "0.1.0",
    readCases: (given, matching) => readCases(given, { matching, today: 20_543 }),
    withSetting: (working) => working,
  });
  session.openNotebook("notebook.md", text);
  session.openCases("repairs.csv", bytes);
  await session.sheet.settled();
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  const input = reportOfSession(session, { version: "0", sha256 });
  session.dispose();
  return input;
}

export function answeredOf({ state }: ReportedCell): Answered | undefined {
  if (state.status !== "current") return undefined;
  const { value } = state;
  return value.kind === "thing" && value.of === "answer" ? (value.content as Answered) : undefined;
}
