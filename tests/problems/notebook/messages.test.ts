import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readNotebook } from "../../../src/notebook/read-notebook.ts";
import { formatProblem } from "../../../src/problem/format-problem.ts";

const folder = new URL("./", import.meta.url);
const files = readdirSync(folder).filter((file) => file.endsWith(".notebook"));

/** Beside each broken notebook stands everything that is said of it. */
describe("each broken notebook is met with the whole of its message", () => {
  test.each(files)("%s", (file) => {
    const { problems } = readNotebook(readFileSync(new URL(file, folder), "utf8"), file);
    const message = problems.map((problem) => `${problem.severity}\n${formatProblem(problem)}\n`);
    const expected = readFileSync(new URL(file.replace(/notebook$/, "message"), folder), "utf8");
    expect(message.join("\n")).toBe(expected);
  });
});
