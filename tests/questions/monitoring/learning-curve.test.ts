import { describe, expect, test } from "vitest";
import { expectedRunLength, signalProbabilities } from "../../../src/statistics/cusum-chain.ts";
import { learningCurveChain } from "../../../src/statistics/learning-curve-cusum.ts";
import { ask } from "../ask.ts";
import { othersOf, seriesOfEyes } from "./series-of-eyes.ts";

const agreed = (more = "") =>
  `learning_curve(eyes, trainee: "A", acceptable: 10%, unacceptable: 20%, source: "agreed"${more})`;
const zeros = (count: number): (0 | 1)[] => new Array(count).fill(0);

describe("learning_curve, the published weights", () => {
  // Biau 2008 weights, pU .20, pA .10: 0.1177830357 a success, -0.6931471806 a failure; worked in R.
  const eyes = seriesOfEyes([1, ...zeros(7), 1, ...zeros(16)]);
  const { figures } = ask(agreed(), { eyes });
  const evidence = figures.evidence as unknown as readonly number[];

  test("the path of the evidence", () => {
    expect(evidence[0]).toBe(0);
    expect(evidence[7]).toBeCloseTo(0.8244812496, 9);
    expect(evidence[8]).toBeCloseTo(0.131334069, 9);
    expect(evidence.findIndex((value) => value >= 1.25)).toBe(18);
    expect(evidence[18]).toBeCloseTo(1.3091644256, 9);
  });

  test("the limit is searched for from the chance of a wrong call, and is the least", () => {
    const { limit_reached, wrongly_reached } = figures as Record<string, number>;
    expect(wrongly_reached).toBeLessThanOrEqual(0.1);
    const design = { acceptable: 0.1, unacceptable: 0.2, limit: limit_reached ?? 0 };
    const chain = learningCurveChain(design, 0.2);
    expect(signalProbabilities(chain, 100).at(-1)).toBeLessThan(0.11);
    const lower = learningCurveChain({ ...design, limit: (limit_reached ?? 0) - 0.13 }, 0.2);
    expect(signalProbabilities(lower, 100).at(-1)).toBeGreaterThan(0.1);
  });
});

test("run lengths, as the chain of the learning-curve CUSUM has them", () => {
  const { figures, sentence } = ask(agreed(), { eyes: seriesOfEyes(zeros(5)) });
  const of = figures as Readonly<Record<string, number>>;
  const design = { acceptable: 0.1, unacceptable: 0.2, limit: of.limit_reached ?? 0 };
  const rightly = expectedRunLength(learningCurveChain(design, 0.1));
  const wrongly = expectedRunLength(learningCurveChain(design, 0.2));
  expect(Math.abs(Number(of.run_length_rightly_reached) / rightly - 1)).toBeLessThan(0.01);
  expect(Math.abs(Number(of.run_length_wrongly_reached) / wrongly - 1)).toBeLessThan(0.02);
  expect(Number(of.run_length_wrongly_not_reached)).toBeGreaterThan(
    3 * Number(of.run_length_rightly_not_reached),
  );
  expect(sentence).toMatch(
    / On average "reached" comes after \d+ operations at 10\.0% and wrongly after [\d,]+ at 20\.0%; "not reached" after \d+ at 20\.0% and wrongly after [\d,]+ at 10\.0%\./,
  );
});

describe("the three answers", () => {
  test("cannot tell yet, and how many more are needed", () => {
    const { figures, sentence } = ask(agreed(), { eyes: seriesOfEyes([1, ...zeros(9)]) });
    expect(figures.verdict).toBe("cannot tell yet");
    const more = Math.ceil((Number(figures.limit_reached) - 9 * 0.1177830357) / 0.1177830357);
    expect(figures.more_without_failure).toBe(more);
    expect(sentence).toMatch(
      new RegExp(
        `^Cannot tell yet whether the acceptable level of 10\\.0% is reached: ${more} more operations without a failure would show that it is reached, and about \\d+ on average if the true rate is 10\\.0%\\.`,
      ),
    );
  });

  test("reached, with the operation since which", () => {
    const { figures, sentence } = ask(agreed(), { eyes: seriesOfEyes(zeros(60)) });
    const needed = Math.ceil(Number(figures.limit_reached) / 0.1177830357);
    expect(figures.verdict).toBe("reached");
    expect(Number(figures.decided_at_operation) % needed).toBe(0);
    expect(sentence).toMatch(
      /^Reached: the record speaks for the acceptable level of 10\.0% since operation /,
    );
  });

  test("not reached, and a later run of successes can turn it", () => {
    const bad = [...zeros(4), 1, 1, 1, 1, 1, 1] as const;
    expect(ask(agreed(), { eyes: seriesOfEyes(bad) }).figures.verdict).toBe("not reached");
    const turned = ask(agreed(), { eyes: seriesOfEyes([...bad, ...zeros(60)]) });
    expect(turned.figures.verdict).toBe("reached");
  });

  test("the odds of both wrong calls are said", () => {
    const { sentence, cautions } = ask(agreed(), { eyes: seriesOfEyes(zeros(5)) });
    expect(sentence).toMatch(
      /At a true rate of 20\.0% this says "reached" at some time within 100 operations with a probability of \d+\.\d%, at 10\.0% with one of \d+\.\d%; it says "not reached" with \d+\.\d% at 10\.0% and \d+\.\d% at 20\.0%\./,
    );
    expect(cautions).toContain("not-a-licence");
  });
});

describe("what stands beside", () => {
  const others = [
    ...othersOf("C1", 5, 45),
    ...othersOf("C2", 6, 44),
    ...othersOf("C3", 4, 46),
    ...othersOf("C4", 4, 46),
  ];
  const eyes = seriesOfEyes([1, 1, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0], {
    others,
    of: (i) => ({
      supervision: i < 6 ? "supervised" : "independent",
      supervisor: i % 2 === 0 ? "C1" : "C2",
      pvr_grade: i < 8 ? "none" : "B",
    }),
  });
  const { rows, sentence, figures, answer, lines } = ask(agreed(", moving: 5"), { eyes });

  test("by supervision, every count open", () => {
    expect(rows.find((row) => row[1] === "supervised")?.slice(2, 4)).toEqual(["6", "3"]);
    expect(rows.find((row) => row[1] === "independent")?.slice(2, 4)).toEqual(["6", "0"]);
    expect(lines("r2-1:failed")).toHaveLength(3);
    expect(sentence).toContain("of the last 5, 0.0%");
    // Wilson for 3 of 12: 0.0889 to 0.5323 (R: prop.test(3, 12, correct = FALSE)).
    expect(sentence).toContain(
      "3 redetached or never lay flat (25.0%, 95% interval 8.9 to 53.2%; of",
    );
  });

  test("whether the eyes became harder", () => {
    expect(figures.thirds).toMatchObject([{ difficulty: 0 }, { difficulty: 0 }, { difficulty: 1 }]);
    expect(sentence).toContain("the eyes have become harder, so the rates understate the progress");
  });

  test("eyes without any recorded factor have not become easier", () => {
    const same = seriesOfEyes([1, 0, 0, 0, 0, 0, 0, 0, 0], { of: () => ({ pvr_grade: "none" }) });
    expect(ask(agreed(), { eyes: same }).sentence).toContain(
      "0.00, 0.00 and 0.00: the eyes are about as hard as at first.",
    );
  });

  test("difficulty by a model of others says what it rests on", () => {
    const model = ask(agreed(", within: 3 months").replace("(eyes", "(eyes, pvr_grade"), {
      eyes: seriesOfEyes([1, 0, 0, 0, 0, 0], {
        others: others.map((row, i) => ({ ...row, pvr_grade: i % 4 === 0 ? "B" : "none" })),
        of: (i) => ({ pvr_grade: i < 3 ? "none" : "B" }),
      }),
    });
    // 19 failures of others on one column are enough.
    expect(model.figures.thirds).toMatchObject([{}, {}, { difficulty: expect.any(Number) }]);
    expect(model.cautions).not.toContain("penalised-likelihood");
    const few = ask(agreed().replace("(eyes", "(eyes, pvr_grade"), {
      eyes: seriesOfEyes([1, 0, 0, 0, 0, 0], {
        others: [...others.slice(0, 50), ...others.slice(100, 150)].map((row, i) => ({
          ...row,
          pvr_grade: i < 9 ? "B" : "none",
        })),
        of: () => ({ pvr_grade: "B" }),
      }),
    });
    expect(few.cautions).toEqual(expect.arrayContaining(["penalised-likelihood"]));
  });

  test("difficulty is not told by the eyes of one other surgeon", () => {
    const one = ask(agreed().replace("(eyes", "(eyes, pvr_grade"), {
      eyes: seriesOfEyes([1, 0, 0, 0, 0, 0], {
        others: others.slice(0, 50).map((row, i) => ({ ...row, pvr_grade: i < 9 ? "B" : "none" })),
        of: () => ({ pvr_grade: "B" }),
      }),
    });
    expect(one.figures.thirds).toMatchObject([
      { difficulty: null },
      { difficulty: null },
      { difficulty: null },
    ]);
    expect(one.answer.cautions.find(({ code }) => code === "cannot-be-expected")?.text).toBe(
      "Nothing can be expected for A (it would tell the results of one other surgeon).",
    );
  });

  test("trainers and unit together, never one of them, and shut", () => {
    expect(rows.slice(-2).map((row) => row.slice(1, 4))).toEqual([
      ["2 trainers together", "100", "11"],
      ["the unit without A", "200", "19"],
    ]);
    for (const row of answer.table.rows.slice(-2)) {
      expect(row.every(({ pick }) => pick === undefined)).toBe(true);
    }
    const said = JSON.stringify([answer.sentence, answer.table, answer.figures]);
    expect(said).not.toMatch(/C[1-4]/);
  });

  test("a single trainer is not told, nor what subtraction would tell", () => {
    const alone = seriesOfEyes(zeros(8), { others, of: () => ({ supervisor: "C1" }) });
    const told = ask(agreed(), { eyes: alone }).rows.map((row) => row[1]);
    expect(told).not.toContain("1 trainers together");
    const three = seriesOfEyes(zeros(8), {
      others: others.slice(0, 150),
      of: (i) => ({ supervisor: i % 2 === 0 ? "C1" : "C2" }),
    });
    const beside = ask(agreed(), { eyes: three }).rows.map((row) => row[1]);
    expect(beside).toContain("the unit without A");
    expect(beside).not.toContain("2 trainers together");
  });

  test.each([
    [
      'learning_curve(eyes, trainee: "A", acceptable: 20%, unacceptable: 10%, source: "x")',
      "unacceptable cannot be 0.1",
    ],
    ['learning_curve(eyes, trainee: "A", acceptable: 10%, unacceptable: 20%)', "source"],
    [agreed(", moving: 2"), "moving cannot be 2"],
  ])("%s is refused in words", (working, message) => {
    expect(() => ask(working, { eyes })).toThrow(message);
  });
});

test("a trainee with no known outcome", () => {
  const { sentence, answer } = ask(agreed(), { eyes: seriesOfEyes(["?"]) });
  expect(sentence).toBe("A has no operation whose outcome is known.");
  expect(answer.leftOut.map(({ count }) => count)).toEqual([1]);
});

test("whether failures fall over the thirds, by the test of trend", () => {
  const eyes = seriesOfEyes([1, 1, 1, 1, 0, 0, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
  const { figures, sentence } = ask(agreed(), { eyes });
  // 4, 2 and 0 of 6: z = -4 / sqrt(1/3 * 2/3 * 12) by Cochran's formula.
  expect(figures.trend_z).toBeCloseTo(-4 / Math.sqrt((2 / 9) * 12), 10);
  expect(sentence).toContain(
    "By thirds in order 4 of 6, 2 of 6 and 0 of 6 failed: the rate falls (Cochran–Armitage test of trend, p = 0.014).",
  );
});
