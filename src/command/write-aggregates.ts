import { basename, dirname } from "node:path";
import schema from "../aggregates/aggregates.schema.json" with { type: "json" };
import { type AggregatesFile, aggregatesText } from "../aggregates/aggregates-file.ts";
import { formatProblem } from "../problem/format-problem.ts";
import { counted } from "../questions/answering/wording.ts";
import { aggregatesOfSession } from "../report/pooling/aggregates-of-session.ts";
import type { Exit, Surroundings } from "./exit.ts";
import { type ToWorkOut, workOut } from "./work-out.ts";
import { writeFiles } from "./write-files.ts";
import { thresholdOf } from "./write-report.ts";

export interface AggregatesWanted extends ToWorkOut {
  /** The file to write. */
  readonly into: string;
  /** The smallest count that is told; absent: what the notebook says. */
  readonly threshold?: number;
  readonly eyes?: string;
  readonly unit?: string;
  readonly by: readonly string[];
  readonly quiet: boolean;
}

/** Writes the aggregates of a department; says what is in them and what is withheld. */
export async function writeAggregates(
  asked: AggregatesWanted,
  speaker: Surroundings & { readonly version: string },
): Promise<Exit> {
  const worked = await workOut(asked, speaker);
  if (worked === undefined) return 2;
  const { version } = speaker;
  const threshold = thresholdOf(asked, worked.session.document);
  const made = aggregatesOfSession(worked.session, { ...asked, threshold, version });
  worked.session.dispose();
  if ("problems" in made) {
    speaker.warn(made.problems.map((problem) => `${formatProblem(problem)}\n`).join(""));
    return 2;
  }
  const file = { name: basename(asked.into), content: aggregatesText(made.aggregates) };
  await writeFiles(dirname(asked.into), [file]);
  if (!asked.quiet) speaker.say(summary(made.aggregates, asked.into));
  return 0;
}

function summary({ groups, smallest_count }: AggregatesFile, into: string): string {
  const timed = groups.filter(({ times }) => times !== undefined).length;
  const [all] = groups;
  const single = groups.filter(({ by }) => by.length < 2).length;
  return (
    `written to ${into}: ${counted(groups.length, "group")} of eyes, no count from 1 to ${smallest_count - 1}; ` +
    `times of ${timed} of ${single} groups${all?.times === undefined ? ", those of all eyes withheld" : ""}\n` +
    "Read it before you send it: it is plain text.\n"
  );
}

/** The published schema of the file. */
export function aggregatesSchema(): string {
  return `${JSON.stringify(schema, null, 2)}\n`;
}
