import { formatDay } from "../../cases/calendar-day.ts";
import { writeCorrections } from "../../cases/corrections/write-corrections.ts";
import type { CaseFile } from "../../cases/open-file.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import type { NamedDigest, ReportInput } from "../../report/report-input.ts";
import { reportOfSession } from "../../report/report-of-session.ts";
import { sharedReport } from "../../report/sharing/shared-report.ts";
import { fileDigest } from "./file-digest.ts";

type Session = NotebookSession<SettingChange>;

/**
 * The report of a settled session, dated `today` (whole days since 1970-01-01); undefined without
 * cases. With a smallest count it is made to be shared, as the command line makes it.
 */
export async function sessionReport(
  session: Session,
  { version, today, smallestCount }: ReportWanted,
): Promise<ReportInput | undefined> {
  const { caseFile, caseReading } = session;
  if (caseFile === undefined || caseReading === undefined) return undefined;
  const sha256 = await digestOfFile(caseFile);
  const laid = await digestsLaid(session, caseFile);
  const input = reportOfSession(session, { version, sha256, laid, dated: formatDay(today) });
  if (smallestCount === undefined) return input;
  // The digest is not in the shared report, so that nobody who reads it knows the seed.
  const seed = Number.parseInt(sha256.slice(0, 8), 16);
  return sharedReport(input, { threshold: smallestCount, seed });
}

export interface ReportWanted {
  readonly version: string;
  readonly today: number;
  readonly smallestCount: number | undefined;
}

/** Further files in their order, then the corrections as the file that they are saved as. */
async function digestsLaid({ laid }: Session, { name }: CaseFile): Promise<NamedDigest[]> {
  const digests: NamedDigest[] = [];
  for (const file of laid.further) {
    digests.push({ name: file.name, sha256: await digestOfFile(file) });
  }
  if (laid.corrections.length === 0) return digests;
  const text = new TextEncoder().encode(writeCorrections(laid.corrections));
  return [...digests, { name: correctionsName(name), sha256: await fileDigest(text) }];
}

/** Of a workbook its own digest, and not that of the text of the sheet. */
async function digestOfFile({ bytes, workbook }: CaseFile): Promise<string> {
  return workbook?.sha256 ?? fileDigest(bytes);
}

/** "repairs.csv" has "repairs corrections.csv". */
export function correctionsName(cases: string): string {
  return `${cases.replace(/\.[^.]*$/, "")} corrections.csv`;
}
