import { expect, test } from "vitest";
import { findRoot } from "../../../src/statistics/find-root.ts";
import { ask } from "../ask.ts";
import { groupsOfEyes } from "../groups-of-eyes.ts";

test("few failures bring Firth's method, and the failures expected of others are theirs", () => {
  const few = groupsOfEyes([
    { surgeon: "A", pvr_grade: "none", failed: 1, attached: 20 },
    { surgeon: "B", pvr_grade: "none", failed: 2, attached: 40 },
    { surgeon: "C", pvr_grade: "B", failed: 4, attached: 6 },
  ]);
  const asked = ask('observed_expected(eyes, pvr_grade, by: surgeon, names: "shown")', {
    eyes: few,
  });
  const [own] = asked.figures.groups as unknown as readonly Readonly<Record<string, number>>[];
  expect(own?.penalised).toBe(true);
  // A by 6 failures of B and C on one column, B and C by 5: ten are better.
  expect(asked.answer.cautions).toEqual(
    expect.arrayContaining([
      {
        code: "few-failures-per-column",
        text: "The model of the eyes of others has 5 failures for its one column (10 are better): what it expects is unsteady.",
      },
      {
        code: "penalised-likelihood",
        text: "The models of the eyes of others are fitted by Firth's penalised likelihood, as failures are few or a factor separates them: it draws the effects of factors towards none, so that less is allowed for case mix.",
      },
    ]),
  );
  // 2 of 42 and 4 of 10 with half an eye more in each cell give the slope (Firth 1993); the intercept is
  // then the one at which as many are predicted as failed, 6 of 52 (Puhr et al. 2017).
  const slope = Math.log(4.5 / 6.5) - Math.log(2.5 / 40.5);
  const risk = (logit: number) => 1 / (1 + Math.exp(-logit));
  const logit = findRoot((a) => 42 * risk(a) + 10 * risk(a + slope) - 6, { from: -9, to: 0 });
  expect(own?.mean_risk).toBeCloseTo(risk(logit), 8);
});
