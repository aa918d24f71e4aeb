import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { type ActionChange, changeAction } from "../../../src/notebook/change-action.ts";
import { readNotebook } from "../../../src/notebook/read-notebook.ts";
import { formatProblem } from "../../../src/problem/format-problem.ts";
import type { Problem } from "../../../src/problem/problem.ts";

const folder = new URL("./", import.meta.url);
const files = readdirSync(folder).filter((file) => file.endsWith(".notebook"));

/** What is said of a notebook, and of the change of an action that stands beside it, if one does. */
function problemsOf(file: string): readonly Problem[] {
  const { notebook, problems } = readNotebook(readFileSync(new URL(file, folder), "utf8"), file);
  const beside = new URL(file.replace(/notebook$/, "json"), folder);
  if (!existsSync(beside)) return problems;
  const change: ActionChange = JSON.parse(readFileSync(beside, "utf8"));
  const edit = changeAction(notebook, change);
  return edit.ok ? problems : [...problems, ...edit.problems];
}

/** Beside each broken notebook stands everything that is said of it. */
describe("each broken notebook is met with the whole of its message", () => {
  test.each(files)("%s", (file) => {
    const message = problemsOf(file).map(
      (problem) => `${problem.severity}\n${formatProblem(problem)}\n`,
    );
    const expected = readFileSync(new URL(file.replace(/notebook$/, "message"), folder), "utf8");
    expect(message.join("\n")).toBe(expected);
  });
});
