import { readdirSync, readFileSync } from "node:fs";
import { readCases } from "../../src/cases/read-cases.ts";
import { formatProblem } from "../../src/problem/format-problem.ts";
import { type SettingChange, withSetting } from "../../src/questions/settings/with-setting.ts";
import { vocabulary } from "../../src/questions/vocabulary.ts";
import { NotebookSession } from "../../src/recalculation/notebook-session.ts";

/** Every notebook that is about a file of cases, with that file. */
export const shippedNotebooks: readonly {
  readonly name: string;
  readonly path: string;
  readonly cases: string;
}[] = readdirSync("notebooks")
  .filter((name) => name.endsWith(".md") && name !== "pooled.md")
  .sort()
  .map((name) => ({ name, path: `notebooks/${name}`, cases: casesOf(name) }));

function casesOf(name: string): string {
  return name === "retinopathy.md"
    ? "tests/references/data/retinopathy.csv"
    : "data-demo/repairs.csv";
}

/** 2026-04-14, the day of the invented meeting, in days since 1970-01-01. */
export const meetingDay = 20557;

export type Session = NotebookSession<SettingChange>;

/** The notebook opened over its cases and worked out, as the command line and the page do it. */
export async function openShipped(shipped: {
  readonly name: string;
  readonly path: string;
  readonly cases: string;
}): Promise<Session> {
  const session: Session = new NotebookSession<SettingChange>({
    vocabulary,
    version: "0.1.0",
    readCases: (file, matching) => readCases(file, { matching, today: meetingDay }),
    withSetting,
  });
  const problems = session.openNotebook(shipped.name, readFileSync(shipped.path, "utf8"));
  if (problems.length > 0) throw new Error(problems.map(formatProblem).join("\n"));
  session.openCases("cases.csv", new Uint8Array(readFileSync(shipped.cases)));
  await session.sheet.settled();
  return session;
}
