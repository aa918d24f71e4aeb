import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { ask, casesValue, workedOut } from "./ask.ts";

const { notebook } = readNotebook(readFileSync("notebooks/demo.md", "utf8"));
const reading = readCases(
  { name: "repairs.csv", bytes: new Uint8Array(readFileSync("data-demo/repairs.csv")) },
  { matching: notebook.front.matching },
);
const cases = casesValue(reading);
const cells = { cases, eyes: workedOut("index_eyes(cases, within: 12 months)", { cases }) };
const peopleOf = (working: string) => ask(working, cells).answer.people;
const surgeons = ["A", "B", "C", "D", "E", "F", "T1", "T2", "T3"];

test.each([
  "failure_rate(eyes, by: surgeon)",
  "attachment_curve(eyes, by: surgeon)",
  "count_by(eyes, surgeon)",
  "completeness(cases)",
  'standard(failure_rate(eyes, by: surgeon), at_least: 85%, source: "agreed by the unit")',
])("%s marks the codes it shows", (working) => {
  expect(peopleOf(working)).toEqual(surgeons);
});

test("an answer of one person marks that person", () => {
  expect(peopleOf('my_eyes(eyes, surgeon: "A")')).toContain("A");
});

test.each([
  "failure_rate(eyes, by: pvr_grade)",
  "failure_rate(eyes)",
  "failure_causes(eyes, by: technique)",
])("%s shows no person, whatever its groups are called", (working) => {
  expect(peopleOf(working)).toBeUndefined();
});
