import { rmSync } from "node:fs";
import { mkdir, rename, stat, writeFile } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import { formatProblem } from "../problem/format-problem.ts";
import type { NamedFile } from "../report/files/zip-files.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { refusalWords } from "./refusal-words.ts";

/** What was to be written cannot be: the disk is full, or the folder is not ours to write to. */
export class NotWritten extends Error {
  constructor(path: string, refusal: unknown) {
    super(
      formatProblem({
        code: "not-written",
        severity: "stop",
        place: { file: path },
        message: `this cannot be written: ${refusalWords(refusal)}.`,
        expected: "a folder that may be written to, on a disk with room",
        remedy: "make room, or name another folder with --into",
      }),
    );
  }
}

/**
 * Writes files into a folder, which is made where it is not there. They are written whole under
 * names of their own, and take the place of the old ones when all are written: a run that is ended,
 * or a disk that is full, leaves no half of a file and no report half new.
 */
export async function writeFiles(folder: string, files: readonly NamedFile[]): Promise<void> {
  const parts = files.map(({ name }) => ({ path: join(folder, name), part: partOf(folder, name) }));
  const putAway = () => {
    for (const { part } of parts) rmSync(part, { force: true });
  };
  await refusedFor(folder, () => makeFolder(resolve(folder)));
  process.once("exit", putAway);
  try {
    for (const [at, { path, part }] of parts.entries()) {
      await refusedFor(path, () => writeFile(part, files[at]?.content ?? ""));
    }
    for (const { path, part } of parts) await refusedFor(path, () => rename(part, path));
  } finally {
    process.off("exit", putAway);
    putAway();
  }
}

/** What is done with a refusal to write: it is said, and nothing was done. */
export async function saidIfRefused(
  act: () => Promise<Exit>,
  speaker: Pick<Surroundings, "warn">,
): Promise<Exit> {
  try {
    return await act();
  } catch (refusal) {
    if (!(refusal instanceof NotWritten)) throw refusal;
    speaker.warn(`${refusal.message}\n`);
    return 2;
  }
}

function partOf(folder: string, name: string): string {
  return join(folder, `.${name}.${process.pid}.part`);
}

async function refusedFor(path: string, act: () => Promise<unknown>): Promise<void> {
  try {
    await act();
  } catch (refusal) {
    throw refusal instanceof NotWritten ? refusal : new NotWritten(path, refusal);
  }
}

/** Folder by folder: asked for all at once, Node never comes back from where none can be made. */
async function makeFolder(path: string): Promise<void> {
  try {
    await mkdir(path);
  } catch (refusal) {
    const { code } = refusal as NodeJS.ErrnoException;
    if (code === "EEXIST" && (await stat(path)).isDirectory()) return;
    const above = dirname(path);
    if (code !== "ENOENT" || above === path) throw refusal;
    await makeFolder(above);
    await mkdir(path);
  }
}
