import type { SettingChange } from "../../questions/settings/with-setting.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import { reportOfSession } from "../../report/report-of-session.ts";
import type { LeavingReplies, LeavingRequest } from "../leaving-protocol.ts";
import { crossingCell, crossingReport } from "./crossing-report.ts";
import { type ReportWanted, sessionReport } from "./session-report.ts";

type Session = NotebookSession<SettingChange>;

/** What the files of a report, or a copy of one cell, are made from. The session is settled. */
export async function answerLeaving(
  session: Session,
  request: LeavingRequest,
  facts: Pick<ReportWanted, "version" | "today">,
): Promise<LeavingReplies[LeavingRequest["ask"]]> {
  if (session.caseReading === undefined) return null;
  if (request.ask === "finding") return findingOf(session, request.cell, facts.version);
  const report = await sessionReport(session, { ...facts, smallestCount: request.smallestCount });
  return report === undefined ? null : crossingReport(report);
}

/** One finding tells nothing of the file: no digest is worked out for it. */
function findingOf(session: Session, name: string, version: string): LeavingReplies["finding"] {
  const { cells } = reportOfSession(session, { version, sha256: "" });
  const cell = cells.find((each) => each.name === name);
  return cell === undefined ? null : crossingCell(cell);
}
