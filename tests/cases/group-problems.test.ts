import { describe, expect, test } from "vitest";
import {
  describeLines,
  formatProblemGroup,
  groupProblems,
} from "../../src/cases/group-problems.ts";
import { readText } from "./read-text.ts";

const text =
  "case,technique,lens\n1,band,phakic\n2,SB,oval\n3,band,phakic\n4,tap,oval\n5,band,band\n";

describe("problems that say the same", () => {
  const groups = groupProblems(readText(text).problems);

  test("are one group for each value and column, with all their lines", () => {
    expect(groups.map(({ problem, lines }) => [problem.place.field, problem.found, lines])).toEqual(
      [
        ["technique", "band", [2, 4, 6]],
        ["lens", "oval", [3, 5]],
        ["technique", "tap", [5]],
        ["lens", "band", [6]],
      ],
    );
  });

  test("are written once, the lines at the end", () => {
    expect(formatProblemGroup(groups[0]!).split("\n")).toEqual([
      "cases.csv, technique: this is not one of the values known here.",
      "  found     band",
      expect.stringMatching(/^ {2}expected {2}scleral buckle, vitrectomy/),
      expect.stringMatching(/^ {2}remedy {4}/),
      "  lines     2, 4, 6",
    ]);
    expect(formatProblemGroup(groups[2]!)).toMatch(/^cases\.csv, line 5, technique: /);
  });

  test("none is lost: the groups have as many lines as there are problems of lines", () => {
    const { problems } = readText(text);
    expect(groups.flatMap(({ lines }) => lines)).toHaveLength(problems.length);
  });

  test("of a whole column stay as they are", () => {
    const [group] = groupProblems(readText("case,techniqe\n1,SB\n2,PPV\n").problems);
    expect(group).toMatchObject({ problem: { code: "heading-guessed" }, lines: [] });
    expect(formatProblemGroup(group!)).toContain("taken for technique");
  });
});

test("lines are named up to eight, the rest counted", () => {
  const lines = Array.from({ length: 25 }, (_, i) => i + 2);
  expect(describeLines(lines)).toBe("2, 3, 4, 5, 6, 7, 8, 9 and 17 more");
  expect(describeLines(lines.slice(0, 9))).toBe("2, 3, 4, 5, 6, 7, 8, 9, 10");
});
