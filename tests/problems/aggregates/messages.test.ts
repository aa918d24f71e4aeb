import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readAggregates } from "../../../src/aggregates/read-aggregates.ts";
import { formatProblem } from "../../../src/problem/format-problem.ts";

const folder = new URL("./", import.meta.url);
const files = readdirSync(folder).filter((file) => file.endsWith(".aggregates"));

/** Beside each broken file of aggregates stands everything that is said of it. */
describe("each broken file of aggregates is met with the whole of its message", () => {
  test.each(files)("%s", (file) => {
    const { problems } = readAggregates(file, readFileSync(new URL(file, folder), "utf8"));
    const message = problems.map((problem) => `${problem.severity}\n${formatProblem(problem)}\n`);
    const expected = readFileSync(new URL(file.replace(/aggregates$/, "message"), folder), "utf8");
    expect(message.join("\n")).toBe(expected);
  });

  test("a file that is too long is not kept here", () => {
    const { problems } = readAggregates("long.json", " ".repeat(5_000_001));
    expect(problems.map(formatProblem)).toEqual([
      [
        "long.json: the file is too long for a file of aggregates",
        "  expected  a file that `holdfast aggregates` wrote",
        "  remedy    ask the department for the file again",
      ].join("\n"),
    ]);
  });
});
