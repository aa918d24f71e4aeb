import { describe, expect, test } from "vitest";
import { casesOf, primary } from "../../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "../ask.ts";
import { groupsOfEyes } from "../groups-of-eyes.ts";

/* When an outcome counts in a question about people: the same rules in all of them. */
const eyes = groupsOfEyes([
  { surgeon: "A", failed: 3, attached: 20, lost: 4 },
  { surgeon: "B", failed: 3, attached: 20 },
  { surgeon: "C", failed: 3, attached: 20 },
]);
const ofA = (more = "") =>
  `observed_expected(eyes, by: surgeon, mine: "A", expected: 12%, source: "a paper"${more})`;

describe("eyes whose outcome is not known", () => {
  test("are never successes: counted apart, with the bounds they leave", () => {
    const { figures, sentence, answer } = ask(ofA(), { eyes });
    expect([figures.own_eyes, figures.own_failed, figures.own_not_known]).toEqual([23, 3, 4]);
    expect(sentence).toContain(
      "The outcome of 4 eyes more is not known: the rate is 11.1% if none of them failed, 25.9% if all did.",
    );
    expect(answer.leftOut).toEqual([
      { reason: "outcome at 3 months not known", count: 4, pick: "unknown" },
    ]);
  });

  test("the window is short unless asked: 3 months, or that of the eyes where it is shorter", () => {
    expect(ask(ofA(), { eyes }).figures.within).toBe("3 months");
    expect(ask(ofA(", within: 1 month"), { eyes }).figures.own_not_known).toBe(0);
    const short = workedOut("index_eyes(cases, within: 1 month)", {
      cases: casesValue(
        casesOf([
          primary({
            patient: "P1",
            surgeon: "A",
            last_seen_date: 1300,
            status_last_seen: "attached",
          }),
          primary({ patient: "P2", surgeon: "A", last_seen_date: 1300, redetachment_date: 1010 }),
        ]),
      ),
    });
    const { figures } = ask('observed_expected(eyes, by: surgeon, names: "shown", expected: 10%)', {
      eyes: short,
    });
    expect([figures.within, figures.eyes, figures.failed]).toEqual(["1 month", 2, 1]);
  });

  test("a tolerance lets the closing visit come early", () => {
    expect(ask(ofA(", tolerance: 41 days"), { eyes }).figures.own_not_known).toBe(0);
    expect(ask(ofA(", tolerance: 40 days"), { eyes }).figures.own_not_known).toBe(4);
  });
});

describe("eyes whose window is still open", () => {
  test("are set aside, failed or not, by the last day in the file or the day given", () => {
    const until = ask(ofA(", until: 1972-11-01"), { eyes }).figures;
    // Day 1035: all operated on day 1000, and 35 days are less than 3 months.
    expect([until.own_eyes, until.too_recent]).toEqual([0, 73]);
  });

  test("a state read at the last visit has no window, and no eye is too recent", () => {
    const cases = casesValue(
      casesOf(
        ["attached", "detached"].map((status_last_seen, i) =>
          primary({ patient: `P${i}`, surgeon: "A", status_last_seen, last_seen_date: 1010 }),
        ),
      ),
    );
    const states = workedOut('index_eyes(cases, failure: "detached at last visit")', { cases });
    const { figures } = ask('observed_expected(eyes, by: surgeon, names: "shown", expected: 10%)', {
      eyes: states,
    });
    expect([figures.eyes, figures.failed, figures.within, figures.too_recent]).toEqual([
      2,
      1,
      null,
      0,
    ]);
  });
});
