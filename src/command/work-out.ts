import { basename } from "node:path";
import packageFacts from "../../package.json" with { type: "json" };
import { readCaseFiles } from "../cases/joining/read-case-files.ts";
import { prepareFile } from "../cases/workbook/prepare-file.ts";
import { formatProblem } from "../problem/format-problem.ts";
import { poolingInputs, poolingVocabulary } from "../questions/vocabulary.ts";
import { NotebookSession } from "../recalculation/notebook-session.ts";
import { dayGiven } from "./day-given.ts";
import type { Surroundings } from "./exit.ts";
import { filesLaid, type GivenFile, type LaidAsked } from "./files-laid.ts";
import { type PeriodAsked, setPeriod } from "./period-asked.ts";
import { readGiven } from "./read-given.ts";

export interface ToWorkOut {
  readonly notebook: string;
  readonly cases: string;
  /** Of a workbook; absent: the one with the most known headings. */
  readonly sheet?: string;
  /** "2026-03-31": later days in the file have not come yet. */
  readonly dated?: string;
  /** The period that the notebook is set to; absent: as it stands there. */
  readonly period?: PeriodAsked;
  /** What lies over the file of cases; nothing where left out. */
  readonly laid?: LaidAsked;
}

export interface WorkedOut {
  /** Settled; to be disposed of by whoever asked. */
  readonly session: NotebookSession<never>;
  /** The bytes of the file of cases. */
  readonly bytes: Buffer;
  /** The files that lie over it. */
  readonly laid: readonly GivenFile[];
}

/** A notebook worked out over a file of cases, or undefined after saying why it cannot be. */
export async function workOut(
  asked: ToWorkOut,
  speaker: Surroundings,
): Promise<WorkedOut | undefined> {
  const notebook = await readGiven(asked.notebook, speaker);
  const bytes = await readGiven(asked.cases, speaker);
  const laid = await filesLaid(asked.laid ?? { further: [] }, speaker);
  if (notebook === undefined || bytes === undefined || laid === undefined) return undefined;
  const today =
    asked.dated === undefined ? speaker.today : (dayGiven(asked.dated) ?? speaker.today);
  const session = new NotebookSession<never>({
    vocabulary: poolingVocabulary,
    inputs: poolingInputs,
    version: packageFacts.version,
    readCases: (file, matching, { further, corrections }) =>
      readCaseFiles(file, further, { matching, today, corrections }),
    withSetting: (working) => working,
  });
  const file = await prepareFile({
    name: basename(asked.cases),
    bytes: new Uint8Array(bytes),
    ...(asked.sheet === undefined ? {} : { sheet: asked.sheet }),
  });
  const read = session.openNotebook(basename(asked.notebook), notebook.toString("utf8"));
  const isRead = !read.some(({ severity }) => severity === "stop");
  const refusal = isRead && asked.period ? setPeriod(session, asked.period) : undefined;
  if (refusal !== undefined) {
    speaker.warn(`${refusal}\n`);
    session.dispose();
    return undefined;
  }
  const problems = isRead ? [...read, ...session.openFile(file, laid.over)] : read;
  if (!isRead || session.caseReading === undefined) {
    speaker.warn(problems.map((problem) => `${formatProblem(problem)}\n`).join(""));
    session.dispose();
    return undefined;
  }
  await session.sheet.settled();
  return { session, bytes, laid: laid.given };
}
