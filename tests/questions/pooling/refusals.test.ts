import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { AggregatesFile } from "../../../src/aggregates/aggregates-file.ts";
import { readAggregates } from "../../../src/aggregates/read-aggregates.ts";
import { formatProblem } from "../../../src/problem/format-problem.ts";
import { departmentsValue } from "../../../src/questions/pooling/departments.ts";

function fileNamed(name: string): AggregatesFile {
  const read = readAggregates(name, readFileSync(`data-demo/departments/${name}`, "utf8"));
  if (!("aggregates" in read)) throw new Error(`${name} cannot be read`);
  return read.aggregates;
}

const [north, south] = [fileNamed("unit-n.json"), fileNamed("unit-s.json")];

function messages(...files: readonly AggregatesFile[]): string {
  const pooled = departmentsValue(files);
  return "problems" in pooled ? pooled.problems.map(formatProblem).join("\n") : "";
}

describe("departments that cannot be pooled", () => {
  test("are told so in whole messages; others are pooled", () => {
    expect(messages(north, south)).toBe("");
    expect(messages(north, { ...south, unit: north.unit })).toBe(
      [
        "unit: two files are of the same department: its eyes would count twice",
        "  found     unit N: operated from 2023 Q1 to 2025 Q4; operated from 2023 Q1 to 2025 Q4",
        "  expected  one file of each department, over its whole period",
        "  remedy    leave one out; of two periods ask for one file, since an eye of one may be " +
          "followed in the other; or, if they are two departments, let each give a name of its own",
      ].join("\n"),
    );
    expect(messages(north, { ...north, unit: "unit M" })).toBe(
      [
        "groups: two files have the same counts and times: their eyes would count twice",
        "  found     unit N and unit M",
        "  expected  files of different eyes",
        "  remedy    leave one out",
      ].join("\n"),
    );
    const longer = { ...south, definition: { ...south.definition, days: 365 } };
    expect(messages(north, longer)).toBe(
      [
        "definition.days: the departments differ in the window in days",
        "  found     unit N: 183; unit S: 365",
        "  expected  the same in every department",
        "  remedy    agree on one and let each department write its aggregates again",
      ].join("\n"),
    );
  });

  test("are not those that withhold the same counts without times", () => {
    const untimed = (unit: string): AggregatesFile => ({
      ...north,
      unit,
      groups: north.groups.map(({ times: _, causes: __, ...group }) => group),
    });
    expect(messages(untimed("one"), untimed("other"))).toBe("");
  });
});
