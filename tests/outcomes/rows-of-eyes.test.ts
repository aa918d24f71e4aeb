import { expect, test } from "vitest";
import { indexEyes } from "../../src/outcomes/index-eyes.ts";
import { rowsOfEyes } from "../../src/outcomes/rows-of-eyes.ts";
import { casesOf, primary } from "./cases-of.ts";

const rules = { failure: "redetachment", oil: "counted as attached", undecided: "bounds" } as const;

const cases = casesOf([
  primary({ patient: "P2" }),
  primary({ patient: "P1", operation_date: 1050 }),
  primary({ patient: "P1" }),
  primary({ patient: "P1", eye: "left" }),
]);

test("each eye has its rows, the primary repair first", () => {
  expect(rowsOfEyes(cases, indexEyes(cases, rules))).toEqual([[0], [2, 1], [3]]);
});

test("a line that stands in several files is told by patient and side", () => {
  const twoFiles = { ...cases, lines: [2, 3, 2, 3] };
  expect(rowsOfEyes(twoFiles, indexEyes(twoFiles, rules))).toEqual([[0], [2, 1], [3]]);
});
