import { describe, expect, test } from "vitest";
import type { Value } from "../../src/formula/value.ts";
import type { Answered, Figure } from "../../src/questions/answer.ts";
import type { CellState } from "../../src/recalculation/cell-state.ts";
import { checkMinuted } from "../../src/recalculation/check-minuted.ts";

function answer(figures: Readonly<Record<string, Figure>>): CellState {
  const answered: Answered = {
    answer: {
      question: "failure_rate",
      asks: "How often did it fail?",
      sentence: [],
      table: { columns: [], rows: [] },
      cautions: [],
      unit: "eyes",
      used: 442,
      leftOut: [],
      figures,
    },
    picks: new Map(),
    record: { describe: () => ({ headings: [], rows: [] }) },
  };
  return current({ kind: "thing", of: "answer", parts: new Map(), content: answered });
}

const current = (value: Value): CellState => ({ status: "current", value });
const number = (number: number) => current({ kind: "number", number });

/** "holds", "was … now …", or why it cannot be checked. */
function verdict(told: string, state: CellState): string {
  const check = checkMinuted(told, state);
  if (check.verdict === "moved") return `was ${check.was} now ${check.now}`;
  return check.verdict === "holds" ? "holds" : check.why;
}

describe("what was minuted of an answer", () => {
  const state = answer({ headline: "60 of 442" });
  test.each([
    ["60 of 442", "holds"],
    ["60  of 442 eyes", "holds"],
    ["13.6%", "holds"],
    ["14 %", "holds"],
    ["60 of 442 eyes (13.57%) at 12 months", "holds"],
    ["58 of 440", "was 58 of 440 now 60 of 442"],
    [
      "58 of 440 (13.2%) in 2 years",
      "was 58 of 440 (13.2%) in 2 years now 60 of 442 (13.6%) in 2 years",
    ],
    ["13%", "was 13% now 14%"],
    ["fewer than last year", "no number was minuted"],
  ])("%s: %s", (told, expected) => expect(verdict(told, state)).toBe(expected));

  test("of none of none is a dash", () => {
    expect(verdict("50%", answer({ headline: "0 of 0" }))).toBe("was 50% now \u2013%");
  });
  test("rounds halves up, as people do", () => {
    expect(verdict("1.5%", answer({ headline: "29 of 2000" }))).toBe("holds");
    expect(verdict("-3", number(-2.5))).toBe("holds");
  });
});

describe("what was minuted of a plain number", () => {
  test.each([
    ["13.6%", 0.1357, "holds"],
    ["0.14", 0.1357, "holds"],
    ["442 eyes", 442, "holds"],
    ["442 eyes", 443, "was 442 eyes now 443 eyes"],
    ["-3", 2.4, "was -3 now 2"],
  ])("%s of %d: %s", (told, value, expected) =>
    expect(verdict(told, number(value))).toBe(expected),
  );
});

describe("what cannot be checked", () => {
  test("says why", () => {
    expect(verdict("60 of 442", { status: "waiting", waitsFor: ["cases"] })).toBe(
      "it has no value",
    );
    expect(verdict("60 of 442", answer({}))).toBe("it has no number that is minuted");
    expect(verdict("60", current({ kind: "text", text: "60" }))).toBe(
      "it has no number that is minuted",
    );
  });

  test("compares a percentage with the rate that the sentence leads with", () => {
    const state = answer({ headline: "68 of 517", headline_rate: 0.147 });
    expect(verdict("14.7%", state)).toBe("holds");
    expect(verdict("68 of 517, 14.7%", state)).toBe("holds");
    expect(verdict("13.2%", state)).toBe("was 13.2% now 14.7%");
  });

  test("compares a headline of another form as a whole", () => {
    const state = answer({ headline: "27 of 140 v 13 of 163" });
    expect(verdict("27 of 140 v 13 of 163", state)).toBe("holds");
    expect(verdict("25 of 140 v 13 of 163", state)).toBe(
      "was 25 of 140 v 13 of 163 now 27 of 140 v 13 of 163",
    );
    expect(verdict("met", answer({ headline: "not met" }))).toBe("was met now not met");
  });
});
