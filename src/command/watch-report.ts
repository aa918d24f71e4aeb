import { type FSWatcher, watch } from "node:fs";
import { basename, dirname } from "node:path";
import { listed } from "../questions/answering/wording.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { makeReport, type ReportAsked } from "./make-report.ts";
import { type Later, rebuildOnChange } from "./rebuild-on-change.ts";
import { refusalWords } from "./refusal-words.ts";
import { saidIfRefused } from "./write-files.ts";

/** Long enough for a program to have written a file out, in milliseconds. */
const quiet = 200;

/**
 * Makes the report, and again whenever the notebook or the cases change, until it is stopped. What
 * goes wrong with one of them is said, and the next change may mend it.
 */
export async function watchReport(
  asked: ReportAsked,
  speaker: Surroundings & { readonly version: string },
  whenStopped: Promise<void>,
): Promise<Exit> {
  const build = () => saidIfRefused(() => makeReport(asked, speaker), speaker);
  let exit = await build();
  const rebuilding = rebuildOnChange(async () => {
    exit = await build();
  }, inAWhile);
  const watched = [asked.notebook, asked.cases, ...pathsLaid(asked)];
  const watchers = watched.flatMap((path) => watchFile(path, rebuilding.changed, speaker) ?? []);
  const isWatching = watchers.length === watched.length;
  if (isWatching) {
    speaker.warn(`watching ${listed(watched)}; Ctrl-C ends it\n`);
    await whenStopped;
  }
  for (const watcher of watchers) watcher.close();
  await rebuilding.stop();
  return isWatching ? exit : 2;
}

function pathsLaid({ laid }: ReportAsked): readonly string[] {
  const corrections = laid?.corrections;
  const further = laid?.further.map(({ path }) => path) ?? [];
  return corrections === undefined ? further : [...further, corrections];
}

/** By its folder, since many programs write a new file in place of the old one. */
function watchFile(
  path: string,
  changed: () => void,
  speaker: Pick<Surroundings, "warn">,
): FSWatcher | undefined {
  const refused = (refusal: unknown) =>
    speaker.warn(`${dirname(path)}: this folder cannot be watched: ${refusalWords(refusal)}.\n`);
  try {
    const watcher = watch(dirname(path), (_, name) => {
      if (name === null || name === basename(path)) changed();
    });
    return watcher.on("error", refused);
  } catch (refusal) {
    refused(refusal);
    return undefined;
  }
}

const inAWhile: Later = (act) => {
  const timer = setTimeout(act, quiet);
  return () => clearTimeout(timer);
};
