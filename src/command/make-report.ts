import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { formatProblem } from "../problem/format-problem.ts";
import type { Problem } from "../problem/problem.ts";
import { counted } from "../questions/answering/wording.ts";
import type { ReportInput } from "../report/report-input.ts";
import { reportOfSession } from "../report/report-of-session.ts";
import { whyNoAnswer } from "../report/why-no-answer.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { type Paper, printReport } from "./print-pdf.ts";
import { warnOfMoved } from "./warn-of-moved.ts";
import { type ToWorkOut, workOut } from "./work-out.ts";
import {
  type FilesBeside,
  forReaders,
  type SharingAsked,
  thresholdOf,
  writeReport,
} from "./write-report.ts";

export interface ReportAsked extends ToWorkOut {
  readonly into: string;
  /** For a report that may leave the department. */
  readonly share?: SharingAsked;
  /** For a PDF beside the page: the paper it is laid out for. */
  readonly paper?: Paper;
  /** Slides, and a zip of everything. */
  readonly beside?: FilesBeside;
  readonly quiet: boolean;
}

/** Reads, works out and writes; says what was written and what is wrong. */
export async function makeReport(
  asked: ReportAsked,
  speaker: Surroundings & { readonly version: string },
): Promise<Exit> {
  const progress = progressOn(speaker, asked.quiet);
  if (asked.share !== undefined && existsSync(join(asked.into, "problems.csv"))) {
    speaker.warn(
      `${asked.into} holds a report that is not for sharing; --share needs a folder of its own.\n`,
    );
    return 2;
  }
  progress("working out");
  const worked = await workOut(asked, speaker);
  if (worked === undefined) return 2;
  const { session, bytes, laid } = worked;
  const input = reportOfSession(session, {
    version: speaker.version,
    sha256: sha256Of(bytes),
    laid: laid.map((file) => ({ name: file.name, sha256: sha256Of(file.bytes) })),
    ...(asked.dated === undefined ? {} : { dated: asked.dated }),
  });
  const threshold = asked.share && thresholdOf(asked.share, session.document);
  session.dispose();
  if (input.cells.length === 0) {
    progress("");
    speaker.warn(`${formatProblem(asksNothing(asked.notebook))}\n`);
    return 2;
  }
  progress("writing");
  const report = await writeReport(asked.into, forReaders(input, threshold), {
    asked: asked.beside ?? {},
    speaker,
  });
  const { files, refusal } = await printReport(asked.into, report, asked.paper);
  progress("");
  const exit = closing({ asked, speaker, input, written: files });
  if (refusal === undefined) return exit;
  speaker.warn(`${refusal}\n`);
  return 1;
}

/** Most likely no notebook at all, or its workings do not stand in from the margin. */
function asksNothing(file: string): Problem {
  return {
    code: "notebook-asks-nothing",
    severity: "stop",
    place: { file },
    message: "this notebook asks nothing, so that there is nothing to report.",
    expected: "a text file with indented lines such as: how_often = failure_rate(eyes)",
    remedy: "give the notebook first and the file of cases second; indent workings by four spaces",
  };
}

function sha256Of(bytes: Buffer): string {
  return createHash("sha256").update(bytes).digest("hex");
}

/** One line, written over; only to a person who is waiting. */
function progressOn(speaker: Surroundings, quiet: boolean): (what: string) => void {
  if (quiet || !speaker.isTerminal) return () => {};
  return (what) => speaker.warn(`\r\u001b[K${what === "" ? "" : `${what} …`}`);
}

function closing(done: {
  readonly asked: ReportAsked;
  readonly speaker: Surroundings;
  readonly input: ReportInput;
  readonly written: readonly string[];
}): Exit {
  const { asked, speaker, input, written } = done;
  const unanswered = input.cells.filter(({ state }) => state.status !== "current");
  for (const { name, state } of unanswered) speaker.warn(`${name}: ${whyNoAnswer(state)}\n`);
  warnOfMoved(input.cells, speaker);
  if (!asked.quiet) {
    const { rowsRead, rowsKept, rowsLeftOut } = input.cases;
    speaker.say(
      `${counted(rowsRead, "row")} read, ${rowsKept} kept, ${rowsLeftOut} left out, ` +
        `${counted(input.cases.queries, "query", "queries")}\n` +
        `written to ${asked.into}: ${written.join(", ")}\n`,
    );
  }
  return unanswered.length === 0 ? 0 : 1;
}
