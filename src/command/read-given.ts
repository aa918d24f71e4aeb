import { readFile } from "node:fs/promises";
import { formatProblem } from "../problem/format-problem.ts";
import type { Problem } from "../problem/problem.ts";
import type { Surroundings } from "./exit.ts";
import { refusalWords } from "./refusal-words.ts";

/** The bytes of a file that was named, or undefined after saying why it cannot be read. */
export async function readGiven(
  path: string,
  speaker: Pick<Surroundings, "warn">,
): Promise<Buffer | undefined> {
  const given = await bytesGiven(path);
  if (Buffer.isBuffer(given)) return given;
  speaker.warn(`${formatProblem(given)}\n`);
  return undefined;
}

/** The bytes of a file that was named, or why it cannot be read. */
export async function bytesGiven(path: string): Promise<Buffer | Problem> {
  try {
    return await readFile(path);
  } catch (refusal) {
    return {
      code: "file-unreadable",
      severity: "stop",
      place: { file: path },
      message: `this file cannot be read: ${refusalWords(refusal)}.`,
      expected: "the path of a file that is there and may be read",
      remedy: "look for a slip in the name; a name with spaces goes in quotation marks",
    };
  }
}
