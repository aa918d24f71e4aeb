import { createHash } from "node:crypto";
import { basename } from "node:path";
import packageFacts from "../../package.json" with { type: "json" };
import { readCases } from "../cases/read-cases.ts";
import { formatProblem } from "../problem/format-problem.ts";
import type { Problem } from "../problem/problem.ts";
import { counted } from "../questions/answering/wording.ts";
import { poolingInputs, poolingVocabulary } from "../questions/vocabulary.ts";
import { NotebookSession } from "../recalculation/notebook-session.ts";
import { pooledReport } from "../report/pooling/pooled-report.ts";
import { type AggregatesGiven, readDepartments } from "../report/read-departments.ts";
import type { ReportedCell } from "../report/report-input.ts";
import { whyNoAnswer } from "../report/why-no-answer.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { type Paper, printReport } from "./print-pdf.ts";
import { readGiven } from "./read-given.ts";
import { warnOfMoved } from "./warn-of-moved.ts";
import { type FilesBeside, writeReport } from "./write-report.ts";

export interface PoolingWanted {
  readonly notebook: string;
  readonly aggregates: readonly string[];
  readonly into: string;
  readonly dated?: string;
  /** For a PDF beside the page: the paper it is laid out for. */
  readonly paper?: Paper;
  /** Slides and a zip of everything, where they are wanted. */
  readonly beside?: FilesBeside;
  readonly quiet: boolean;
}

/** The report of a notebook over the aggregates of several departments. */
export async function poolDepartments(asked: PoolingWanted, speaker: Surroundings): Promise<Exit> {
  const notebook = await readGiven(asked.notebook, speaker);
  const given = await aggregatesGiven(asked.aggregates, speaker);
  if (notebook === undefined || given === undefined) return 2;
  const session = pooledSession();
  const read = session.openNotebook(basename(asked.notebook), notebook.toString("utf8"));
  const stops = read.filter(({ severity }) => severity === "stop");
  const departments = readDepartments(given);
  if (stops.length > 0 || "problems" in departments) {
    warn([...stops, ...("problems" in departments ? departments.problems : [])], speaker);
    session.dispose();
    return 2;
  }
  const { value } = departments;
  session.give("open aggregates", "departments", { value, because: "aggregates were opened" });
  await session.sheet.settled();
  const input = pooledReport(session, {
    version: packageFacts.version,
    aggregates: departments.files,
    ...(asked.dated === undefined ? {} : { dated: asked.dated }),
  });
  session.dispose();
  const report = await writeReport(asked.into, input, { asked: asked.beside ?? {}, speaker });
  const { files, refusal } = await printReport(asked.into, report, asked.paper);
  const exit = closing(input.cells, { asked, speaker, files });
  if (refusal === undefined) return exit;
  speaker.warn(`${refusal}\n`);
  return 1;
}

function pooledSession(): NotebookSession<never> {
  return new NotebookSession<never>({
    vocabulary: poolingVocabulary,
    inputs: poolingInputs,
    version: packageFacts.version,
    readCases: (file, matching) => readCases(file, { matching }),
    withSetting: (working) => working,
  });
}

/** The files as they are, or undefined after saying which cannot be read. */
async function aggregatesGiven(
  paths: readonly string[],
  speaker: Surroundings,
): Promise<readonly AggregatesGiven[] | undefined> {
  const given: AggregatesGiven[] = [];
  for (const path of paths) {
    const bytes = await readGiven(path, speaker);
    if (bytes === undefined) return undefined;
    const sha256 = createHash("sha256").update(bytes).digest("hex");
    given.push({ name: basename(path), sha256, text: bytes.toString("utf8") });
  }
  return given;
}

function warn(problems: readonly Problem[], speaker: Surroundings): void {
  speaker.warn(problems.map((problem) => `${formatProblem(problem)}\n`).join(""));
}

function closing(
  cells: readonly ReportedCell[],
  done: {
    readonly asked: PoolingWanted;
    readonly speaker: Surroundings;
    readonly files: readonly string[];
  },
): Exit {
  const { asked, speaker, files } = done;
  const unanswered = cells.filter(({ state }) => state.status !== "current");
  for (const { name, state } of unanswered) speaker.warn(`${name}: ${whyNoAnswer(state)}\n`);
  warnOfMoved(cells, speaker);
  if (!asked.quiet) {
    const departments = counted(asked.aggregates.length, "department");
    speaker.say(`${departments} pooled\nwritten to ${asked.into}: ${files.join(", ")}\n`);
  }
  return unanswered.length === 0 ? 0 : 1;
}
