import { describe, expect, test } from "vitest";
import { casesOf } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";
import { eyesOf, rowsOfGroups } from "./groups-of-eyes.ts";

/*
 * With a tolerance more eyes are known than the flow of the same sheet calls followed to the window:
 * every answer that allows for early visits says so, and no other.
 */
const rows = rowsOfGroups([
  { technique: "vitrectomy", surgeon: "A", failed: 4, attached: 30, lost: 6 },
  { technique: "scleral buckle", surgeon: "B", failed: 5, attached: 30, lost: 2 },
  { technique: "scleral buckle", surgeon: "C", failed: 5, attached: 30, lost: 2 },
]);
const cases = casesValue(casesOf(rows.map((row, at) => ({ ...row, age: 40 + (at % 40) }))));
const eyes = workedOut("index_eyes(cases, within: 3 months)", { cases });

const cautionsOf = (working: string, given = eyes) =>
  ask(working, { eyes: given, cases }).answer.cautions.filter(
    ({ code }) => code === "early-visits",
  );

describe("visits that come early and still count", () => {
  test.each([
    "failure_rate(eyes",
    "rate_difference(eyes, by: technique",
    "risk_model(eyes, age",
    'standardised_rate(eyes, age, by: technique, model: "logistic"',
    'observed_expected(eyes, by: surgeon, expected: 12%, source: "a paper"',
    'funnel(eyes, by: surgeon, target: 12%, source: "agreed"',
  ])("%s)", (working) => {
    expect(cautionsOf(`${working}, tolerance: 2 weeks)`).map(({ text }) => text)).toEqual([
      "An eye last seen up to 14 days before 3 months counts as known at 3 months.",
    ]);
    expect(cautionsOf(`${working})`)).toEqual([]);
  });

  test("in follow-up they are no loss", () => {
    expect(cautionsOf("follow_up(eyes, tolerance: 2 weeks)").map(({ text }) => text)).toEqual([
      "An eye last seen up to 14 days before a time is not counted as lost before it.",
    ]);
    expect(cautionsOf("follow_up(eyes)")).toEqual([]);
  });

  test("without a window there is nothing to come early for", () => {
    const uncut = workedOut("index_eyes(cases)", { cases });
    expect(cautionsOf("failure_rate(eyes, tolerance: 2 weeks)", uncut)).toEqual([]);
  });
});

test("a state read at the last visit has no window's end to run high before", () => {
  const last = 'failure: "detached at last visit"';
  const lost = rowsOfGroups([{ failed: 0, attached: 3 }]);
  const silent = lost.map((row, at) => ({
    ...row,
    status_last_seen: at === 0 ? null : "attached",
  }));
  const many = (of: string) =>
    ask("failure_rate(eyes)", { eyes: eyesOf(silent, of) }).answer.cautions.find(
      ({ code }) => code === "many-not-known",
    )?.text;
  expect(many(last)).toBe(
    "The outcome of 1 of 3 eyes (33.3%) is not known. The share among those known holds only if the others fared alike.",
  );
  expect(many("within: 24 months")).toContain("a success only at the window's end");
});
