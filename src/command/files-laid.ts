import { basename } from "node:path";
import { readCorrections } from "../cases/corrections/read-corrections.ts";
import type { FurtherFileKind } from "../cases/joining/join-report.ts";
import type { FurtherFile } from "../cases/joining/read-case-files.ts";
import { prepareFile } from "../cases/workbook/prepare-file.ts";
import { formatProblem } from "../problem/format-problem.ts";
import type { LaidOver } from "../recalculation/laid-over.ts";
import type { Surroundings } from "./exit.ts";
import { readGiven } from "./read-given.ts";

/** A file as it was given. */
export interface GivenFile {
  readonly name: string;
  readonly bytes: Buffer;
}

/** Files that lie over the file of cases. */
export interface LaidAsked {
  /** A list of corrections, as the page saves it. */
  readonly corrections?: string;
  readonly further: readonly { readonly path: string; readonly as: FurtherFileKind }[];
}

export interface FilesLaid {
  readonly over: Pick<LaidOver, "further" | "corrections">;
  /** All that was read for it: further files, then the corrections. */
  readonly given: readonly GivenFile[];
}

/** What lies over the file of cases, or undefined after saying what cannot be read. */
export async function filesLaid(
  asked: LaidAsked,
  speaker: Surroundings,
): Promise<FilesLaid | undefined> {
  const further: FurtherFile[] = [];
  const given: GivenFile[] = [];
  for (const { path, as } of asked.further) {
    const bytes = await readGiven(path, speaker);
    if (bytes === undefined) return undefined;
    const file = await prepareFile({ name: basename(path), bytes: new Uint8Array(bytes) });
    further.push({ ...file, as });
    given.push({ name: file.name, bytes });
  }
  if (asked.corrections === undefined) return { over: { further, corrections: [] }, given };
  const bytes = await readGiven(asked.corrections, speaker);
  const name = basename(asked.corrections);
  if (bytes === undefined) return undefined;
  const corrections = correctionsIn(name, bytes, speaker);
  if (corrections === undefined) return undefined;
  return { over: { further, corrections }, given: [...given, { name, bytes }] };
}

/** A line that says no correction refuses the whole list: a report should not rest on half of it. */
function correctionsIn(
  name: string,
  bytes: Buffer,
  speaker: Surroundings,
): LaidOver["corrections"] | undefined {
  const { corrections, problems } = readCorrections(bytes.toString("utf8"), name);
  if (problems.length === 0) return corrections;
  speaker.warn(problems.map((problem) => `${formatProblem(problem)}\n`).join(""));
  return undefined;
}
