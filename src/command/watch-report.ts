import { type FSWatcher, watch } from "node:fs";
import { basename, dirname } from "node:path";
import { listed } from "../questions/answering/wording.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { makeReport, type ReportAsked } from "./make-report.ts";
import { type Later, rebuildOnChange } from "./rebuild-on-change.ts";

/** Long enough for a program to have written a file out, in milliseconds. */
const quiet = 200;

/** Makes the report, and again whenever the notebook or the cases change, until it is stopped. */
export async function watchReport(
  asked: ReportAsked,
  speaker: Surroundings & { readonly version: string },
  whenStopped: Promise<void>,
): Promise<Exit> {
  let exit = await makeReport(asked, speaker);
  const rebuilding = rebuildOnChange(async () => {
    exit = await makeReport(asked, speaker);
  }, inAWhile);
  const watched = [asked.notebook, asked.cases, ...pathsLaid(asked)];
  const watchers = watched.map((path) => watchFile(path, rebuilding.changed));
  speaker.warn(`watching ${listed(watched)}; Ctrl-C ends it\n`);
  await whenStopped;
  for (const watcher of watchers) watcher.close();
  await rebuilding.stop();
  return exit;
}

function pathsLaid({ laid }: ReportAsked): readonly string[] {
  const corrections = laid?.corrections;
  const further = laid?.further.map(({ path }) => path) ?? [];
  return corrections === undefined ? further : [...further, corrections];
}

/** By its folder, since many programs write a new file in place of the old one. */
function watchFile(path: string, changed: () => void): FSWatcher {
  return watch(dirname(path), (_, name) => {
    if (name === null || name === basename(path)) changed();
  });
}

const inAWhile: Later = (act) => {
  const timer = setTimeout(act, quiet);
  return () => clearTimeout(timer);
};
