import { createHash } from "node:crypto";
import { basename } from "node:path";
import packageFacts from "../../package.json" with { type: "json" };
import type { AggregatesFile } from "../aggregates/aggregates-file.ts";
import { readAggregates } from "../aggregates/read-aggregates.ts";
import { readCases } from "../cases/read-cases.ts";
import { formatProblem } from "../problem/format-problem.ts";
import type { Problem } from "../problem/problem.ts";
import { counted } from "../questions/answering/wording.ts";
import { departmentsValue } from "../questions/pooling/departments.ts";
import { poolingVocabulary } from "../questions/vocabulary.ts";
import { NotebookSession } from "../recalculation/notebook-session.ts";
import { pooledReport } from "../report/pooling/pooled-report.ts";
import type { NamedDigest, ReportedCell } from "../report/report-input.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { readGiven } from "./read-given.ts";
import { warnOfMoved } from "./warn-of-moved.ts";
import { writeReport } from "./write-report.ts";

export interface PoolingWanted {
  readonly notebook: string;
  readonly aggregates: readonly string[];
  readonly into: string;
  readonly dated?: string;
  readonly quiet: boolean;
}

/** The report of a notebook over the aggregates of several departments. */
export async function poolDepartments(asked: PoolingWanted, speaker: Surroundings): Promise<Exit> {
  const notebook = await readGiven(asked.notebook, speaker);
  const departments = await departmentsIn(asked.aggregates, speaker);
  if (notebook === undefined || departments === undefined) return 2;
  const session = pooledSession();
  const read = session.openNotebook(basename(asked.notebook), notebook.toString("utf8"));
  const pooled = departmentsValue(departments.files);
  const problems = [
    ...read.filter(({ severity }) => severity === "stop"),
    ...("problems" in pooled ? pooled.problems : []),
  ];
  if (problems.length > 0 || "problems" in pooled) {
    warn(problems, speaker);
    session.dispose();
    return 2;
  }
  session.sheet.setInput("departments", pooled.value, "aggregates were opened");
  await session.sheet.settled();
  const input = pooledReport(session, {
    version: packageFacts.version,
    aggregates: departments.digests,
    ...(asked.dated === undefined ? {} : { dated: asked.dated }),
  });
  session.dispose();
  const { files } = await writeReport(asked.into, input);
  return closing(input.cells, { asked, speaker, files });
}

function pooledSession(): NotebookSession<never> {
  return new NotebookSession<never>({
    vocabulary: poolingVocabulary,
    inputs: new Set(["cases", "departments"]),
    version: packageFacts.version,
    readCases: (file, matching) => readCases(file, { matching }),
    withSetting: (working) => working,
  });
}

/** The files, each read and checked, or undefined after saying what is wrong with any of them. */
async function departmentsIn(
  paths: readonly string[],
  speaker: Surroundings,
): Promise<
  | { readonly files: readonly AggregatesFile[]; readonly digests: readonly NamedDigest[] }
  | undefined
> {
  const files: AggregatesFile[] = [];
  const digests: NamedDigest[] = [];
  const problems: Problem[] = [];
  for (const path of paths) {
    const bytes = await readGiven(path, speaker);
    if (bytes === undefined) return undefined;
    const name = basename(path);
    const read = readAggregates(name, bytes.toString("utf8"));
    problems.push(...read.problems);
    if ("aggregates" in read) files.push(read.aggregates);
    digests.push({ name, sha256: createHash("sha256").update(bytes).digest("hex") });
  }
  warn(problems, speaker);
  return problems.length === 0 ? { files, digests } : undefined;
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
  for (const { name, state } of unanswered) {
    const why =
      state.status === "at fault"
        ? state.problems.map(formatProblem).join("\n")
        : state.status === "waiting"
          ? `waits for ${state.waitsFor.join(", ")}`
          : "was not worked out";
    speaker.warn(`${name}: ${why}\n`);
  }
  warnOfMoved(cells, speaker);
  if (!asked.quiet) {
    const departments = counted(asked.aggregates.length, "department");
    speaker.say(`${departments} pooled\nwritten to ${asked.into}: ${files.join(", ")}\n`);
  }
  return unanswered.length === 0 ? 0 : 1;
}
