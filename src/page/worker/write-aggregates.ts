import { aggregatesText } from "../../aggregates/aggregates-file.ts";
import type { Problem } from "../../problem/problem.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import type { NotebookSession } from "../../recalculation/notebook-session.ts";
import { aggregatesOfSession } from "../../report/pooling/aggregates-of-session.ts";
import type { AggregatesWanted, DepartmentsReplies } from "../departments-protocol.ts";
import { aggregatesTold } from "./aggregates-told.ts";

/** The aggregates of the cases that are open, as the command line writes them. */
export function writeAggregates(
  session: NotebookSession<SettingChange>,
  { eyes, unit, smallestCount, by }: AggregatesWanted,
  version: string,
): DepartmentsReplies["write aggregates"] {
  if (session.caseReading === undefined) return { problems: [noCases] };
  const made = aggregatesOfSession(session, {
    ...{ version, threshold: smallestCount, by },
    ...(eyes !== undefined && { eyes }),
    ...(unit !== undefined && { unit }),
  });
  if ("problems" in made) return made;
  const name = `${session.name.replace(/\.(md|markdown)$/i, "")} aggregates.json`;
  return { name, text: aggregatesText(made.aggregates), told: aggregatesTold(made.aggregates) };
}

const noCases: Problem = {
  code: "no-cases-to-hand-over",
  severity: "stop",
  place: {},
  message: "no cases are open, so there is nothing to count",
  expected: "a file of operations, and a notebook that follows their eyes",
};
