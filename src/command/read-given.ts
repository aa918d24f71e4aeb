import { readFile } from "node:fs/promises";
import type { Surroundings } from "./exit.ts";

/** The bytes of a file that was named, or undefined after saying why it cannot be read. */
export async function readGiven(path: string, speaker: Surroundings): Promise<Buffer | undefined> {
  try {
    return await readFile(path);
  } catch (refusal) {
    const why = refusal instanceof Error ? refusal.message : String(refusal);
    speaker.warn(`${path}: this file cannot be read (${why}).\n`);
    return undefined;
  }
}
