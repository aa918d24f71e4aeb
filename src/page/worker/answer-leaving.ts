import { formatDay } from "../../cases/calendar-day.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import { pooledReport } from "../../report/pooling/pooled-report.ts";
import type { PooledFile, ReportInput } from "../../report/report-input.ts";
import { reportOfSession } from "../../report/report-of-session.ts";
import type { LeavingReplies, LeavingRequest } from "../leaving-protocol.ts";
import type { SheetInput } from "../protocol.ts";
import { crossingCell, crossingReport } from "./crossing-report.ts";
import { restsOn } from "./rests-on.ts";
import { type ReportWanted, sessionReport } from "./session-report.ts";

type Session = NotebookSession<SettingChange>;

/** The software as it is released, today, and the departments that are open. */
interface LeavingFacts extends Pick<ReportWanted, "version" | "today"> {
  readonly departments: { files(): Promise<readonly PooledFile[]> };
}

/** What the files of a report, or a copy of one cell, are made from. The session is settled. */
export async function answerLeaving(
  session: Session,
  request: LeavingRequest,
  facts: LeavingFacts,
): Promise<LeavingReplies[LeavingRequest["ask"]]> {
  if (request.ask === "finding") return findingOf(session, request.cell, facts.version);
  const fed = restsOn(session);
  const report = !fed.includes("departments")
    ? await sessionReport(session, { ...facts, smallestCount: request.smallestCount })
    : await reportOfDepartments(session, fed, facts);
  return report === undefined ? null : crossingReport(report);
}

/** A report rests on aggregates or on cases: of both there is none. */
async function reportOfDepartments(
  session: Session,
  fed: readonly SheetInput[],
  { version, today, departments }: LeavingFacts,
): Promise<ReportInput | undefined> {
  const aggregates = await departments.files();
  if (fed.includes("cases") || aggregates.length === 0) return undefined;
  return pooledReport(session, { version, aggregates, dated: formatDay(today) });
}

/** One finding tells nothing of the files: no digest is worked out for it. */
function findingOf(session: Session, name: string, version: string): LeavingReplies["finding"] {
  const { caseReading } = session;
  if (caseReading === undefined && session.given("departments") === undefined) return null;
  const { cells } =
    caseReading === undefined
      ? pooledReport(session, { version, aggregates: [] })
      : reportOfSession(session, { version, sha256: "" });
  const cell = cells.find((each) => each.name === name);
  return cell === undefined ? null : crossingCell(cell);
}
