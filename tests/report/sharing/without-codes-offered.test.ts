import { expect, test } from "vitest";
import { withoutCodesOffered } from "../../../src/report/sharing/without-codes-offered.ts";

const people = ["A", "B", "T1", "7"];

test.each([
  ['choose(["A", "B", "T1"], now: "B")', 'choose([…], now: "B")'],
  ['choose(now: "B", options: ["Z", "A"])', 'choose(now: "B", options: […])'],
  ["choose([7, 8], now: 8)", "choose([…], now: 8)"],
])("%s prints as %s", (working, printed) => {
  expect(withoutCodesOffered(working, people)).toBe(printed);
});

test.each([
  'choose(["B"], now: "B")',
  'choose(["redetachment", "reoperation"], now: "reoperation")',
  "choose([3 months, 6 months], now: 3 months)",
  'failure_rate(eyes, by: technique, where: surgeon = "A")',
  'choose(["A", now: "B"',
  '"A"',
])("%s is printed as it is", (working) => {
  expect(withoutCodesOffered(working, people)).toBe(working);
});
