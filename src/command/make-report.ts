import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { join, resolve } from "node:path";
import { counted } from "../questions/answering/wording.ts";
import type { ReportInput } from "../report/report-input.ts";
import { reportOfSession } from "../report/report-of-session.ts";
import { whyNoAnswer } from "../report/why-no-answer.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { type Paper, printPdf } from "./print-pdf.ts";
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
  progress("writing");
  const report = await writeReport(asked.into, forReaders(input, threshold), {
    asked: asked.beside ?? {},
    speaker,
  });
  const refusal =
    asked.paper === undefined ? "" : await print(asked.into, report.page, asked.paper);
  progress("");
  const written = [
    ...report.files,
    ...(asked.paper !== undefined && refusal === "" ? ["report.pdf"] : []),
  ];
  const exit = closing({ asked, speaker, input, written });
  if (refusal === "") return exit;
  speaker.warn(`${refusal}\n`);
  return 1;
}

function sha256Of(bytes: Buffer): string {
  return createHash("sha256").update(bytes).digest("hex");
}

/** Why there is no PDF; empty where there is one. */
async function print(into: string, html: string, paper: Paper): Promise<string> {
  return (await printPdf({ html, into: resolve(into, "report.pdf"), paper })) ?? "";
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
