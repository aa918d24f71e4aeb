import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { counted } from "../questions/answering/wording.ts";
import { comparisonOf } from "../report/comparison/comparison.ts";
import { comparisonJson } from "../report/comparison/comparison-json.ts";
import { comparisonPage } from "../report/comparison/comparison-page.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { workOut } from "./work-out.ts";

export interface CompareAsked {
  readonly notebook: string;
  readonly cases: string;
  readonly otherCases: string;
  readonly into: string;
  readonly dated?: string;
  readonly quiet: boolean;
}

/** Works a notebook out over two files and writes their answers side by side, with why they differ. */
export async function compareFiles(
  asked: CompareAsked,
  speaker: Surroundings & { readonly version: string },
): Promise<Exit> {
  const before = await workOut(asked, speaker);
  if (before === undefined) return 2;
  const after = await workOut({ ...asked, cases: asked.otherCases }, speaker);
  if (after === undefined) {
    before.session.dispose();
    return 2;
  }
  const comparison = comparisonOf(before.session, after.session, speaker.version);
  before.session.dispose();
  after.session.dispose();
  await mkdir(asked.into, { recursive: true });
  await writeFile(join(asked.into, "comparison.html"), comparisonPage(comparison));
  await writeFile(join(asked.into, "comparison.json"), comparisonJson(comparison));
  if (!asked.quiet) {
    const { cells, rows } = comparison;
    const changed = cells.filter(({ isChanged }) => isChanged).length;
    speaker.say(
      `${changed} of ${counted(cells.length, "answer")} changed; ${counted(rows.corrected.length, "row")} ` +
        `corrected, ${rows.added.length} new, ${rows.gone.length} gone\n` +
        `written to ${asked.into}: comparison.html, comparison.json\n`,
    );
  }
  const isWhole = comparison.cells.every(
    ({ before: one, after: other }) => hasAnswer(one) && hasAnswer(other),
  );
  return isWhole ? 0 : 1;
}

/** A cell without an answer has neither a number nor a question. */
function hasAnswer({ value, asks }: { readonly value: number | null; readonly asks?: string }) {
  return value !== null || asks !== undefined;
}
