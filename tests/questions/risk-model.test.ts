import { describe, expect, test } from "vitest";
import { effectText } from "../../src/charts/effect-intervals.ts";
import { ask, casesValue, workedOut } from "./ask.ts";
import { csvCases } from "./csv-cases.ts";
import { groupsOfEyes } from "./groups-of-eyes.ts";

interface TermFigures {
  readonly term: string;
  readonly level: string;
  readonly ratio: number | null;
  readonly ratio_lower: number;
  readonly ratio_upper: number;
  readonly p: number | null;
}

/** Log odds ratios of the levels that have one. */
function logs(figures: Readonly<Record<string, unknown>>, part: keyof TermFigures = "ratio") {
  return (figures.terms as readonly TermFigures[])
    .filter(({ ratio }) => ratio !== null)
    .map((term) => Math.log(Number(term[part])));
}

/** Birth weights of 189 children, Hosmer and Lemeshow 1989, as MASS of R 4.2.2 has them. */
const births = {
  eyes: workedOut("eyes_from(cases, time: bwt, event: low = 1)", {
    cases: casesValue(csvCases("birthwt.csv")),
  }),
};
const race = 'if race = 1 then "white" else if race = 2 then "black" else "other"';
const working = `risk_model(eyes, age, lwt, race: ${race}, smoke = 1, ptl, hypertension: ht = 1, ui = 1, method: "maximum likelihood")`;

describe("risk_model on published data", () => {
  const { answer, figures, sentence, rows, cautions, lines } = ask(working, births);

  test("coefficients by maximum likelihood, as R's glm gives them", () => {
    const expected = [-0.0270697793, -0.01518256286, 1.26321937555, 0.86163510753];
    expected.push(0.92334915723, 0.54175511949, 1.83369560991, 0.75859650421);
    logs(figures).forEach((log, i) => {
      expect(log).toBeCloseTo(expected[i] ?? Number.NaN, 8);
    });
    // 2 (log-likelihoods): the null one is that of 59 of 189.
    const none = 59 * Math.log(59 / 189) + 130 * Math.log(130 / 189);
    expect(figures.overall_chi_square).toBeCloseTo(2 * (-100.7134756 - none), 5);
  });

  test("profile-likelihood limits, as R's confint gives them", () => {
    const lower = [-0.10019228123, -0.02957392188, 0.23412914925, 0.01260676446, 0.14960184203];
    const upper = [0.043375711232, -0.002258122963, 2.315118583134, 1.744785178676];
    logs(figures, "ratio_lower")
      .slice(0, 5)
      .forEach((log, i) => {
        // MASS interpolates its profile by splines.
        expect(log).toBeCloseTo(lower[i] ?? Number.NaN, 4);
      });
    logs(figures, "ratio_upper")
      .slice(0, 4)
      .forEach((log, i) => {
        expect(log).toBeCloseTo(upper[i] ?? Number.NaN, 4);
      });
  });

  test("c-statistic with score limits as roots found by R, Brier score, Hosmer–Lemeshow by deciles", () => {
    expect(figures.c_statistic).toBeCloseTo(0.7460886571, 9);
    expect(figures.c_statistic_lower).toBeCloseTo(0.6628909823, 8);
    expect(figures.c_statistic_upper).toBeCloseTo(0.8124368525, 8);
    expect(figures.brier).toBeCloseTo(0.1794347256, 9);
    expect(figures.hosmer_lemeshow).toBeCloseTo(10.3983356, 5);
    expect(figures.hosmer_lemeshow_p).toBeCloseTo(0.2381731, 6);
  });

  test("sentence, table and chart say the same to the displayed digit", () => {
    if (answer.chart?.draw !== "effects") throw new Error("no ratios are drawn");
    const { effects } = answer.chart;
    expect(effects.rows.map((row) => effectText(row, effects.scale))).toEqual(
      rows.map((row) => row[4]),
    );
    expect(sentence).toContain(
      "it ranks the failed one higher in 74.6% (c-statistic, 95% score interval 66.3 to 81.2%); Brier score 0.179, where the overall share for every eye would have 0.215.",
    );
    expect(sentence).toMatch(
      /^Logistic model on age, lwt, race, smoke = 1, ptl, hypertension and ui/,
    );
    expect(cautions).toEqual(["few-failures-per-column", "judged-on-own-eyes", "not-a-cause"]);
  });

  test("the calibration on request: groups of predicted risk, each leading to its eyes", () => {
    const shown = ask(`${working.slice(0, -1)}, show: "calibration")`, births);
    // Observed by tenths: 0, 2, 6, 1, 7, 7, 5, 7, 10, 14 (R, type-7 deciles).
    expect(shown.rows.map((row) => Number(row[2]))).toEqual([0, 2, 6, 1, 7, 7, 5, 7, 10, 14]);
    if (shown.answer.chart?.draw !== "calibration") throw new Error("no calibration is drawn");
    const { points } = shown.answer.chart.calibration;
    for (const [i, { pick, eyes, predicted }] of points.entries()) {
      expect(shown.lines(pick)).toHaveLength(eyes);
      expect(shown.rows[i]?.[4]).toBe(`${(100 * predicted).toFixed(1)}%`);
    }
    expect(lines("model:failed")).toHaveLength(59);
  });

  test("the Brier score in its parts, and a smooth curve that stays between 0 and 1", () => {
    const { brier, brier_uncertainty: uncertainty } = figures as Readonly<Record<string, number>>;
    expect(uncertainty).toBeCloseTo((59 / 189) * (130 / 189), 12);
    expect(figures.brier_scaled).toBeCloseTo(1 - (brier ?? 0) / (uncertainty ?? 1), 12);
    // Ten groups: those of the test above, by hand from its rows.
    const shown = ask(`${working.slice(0, -1)}, show: "calibration")`, births);
    const cell = (row: number, column: number) =>
      Number(shown.answer.table.rows[row]?.[column]?.value);
    const reliability = shown.rows.reduce((sum, _, row) => {
      const [eyes, failed, predicted] = [cell(row, 1), cell(row, 2), cell(row, 4)];
      return sum + (eyes * (predicted - failed / eyes) ** 2) / 189;
    }, 0);
    expect(figures.brier_reliability).toBeCloseTo(reliability, 12);
    if (shown.answer.chart?.draw !== "calibration") throw new Error("no calibration is drawn");
    const curve = shown.answer.chart.calibration.curve ?? [];
    expect(curve.length).toBeGreaterThan(50);
    expect(curve.every(({ observed }) => observed >= 0 && observed <= 1)).toBe(true);
    expect(figures.smoothed_at_most).toBe(curve.at(-1)?.observed);
  });
});

describe("risk_model by Firth's method", () => {
  // Heinze and Schemper, Statistics in Medicine 2002;21:2409: NV separates; R's brglm2 0.9.
  const cells = {
    eyes: workedOut("eyes_from(cases, time: pi_index, event: hg = 1)", {
      cases: casesValue(
        csvCases("endometrial.csv", { PI: "pi_index", NV: "nv", EH: "eh", HG: "hg" }),
      ),
    }),
  };
  const { figures, sentence } = ask("risk_model(eyes, nv, pi_index, eh)", cells);

  test("finite estimates with profile limits where the outcome is separated", () => {
    const [nv, pi, eh] = logs(figures);
    expect(nv).toBeCloseTo(2.9292733532, 6);
    expect(pi).toBeCloseTo(-0.0347517599, 7);
    expect(eh).toBeCloseTo(-2.6041639253, 6);
    expect(logs(figures, "ratio_lower")[0]).toBeCloseTo(0.6097244, 5);
    expect(logs(figures, "ratio_upper")[0]).toBeCloseTo(7.8546317, 5);
    expect((figures.terms as unknown as readonly TermFigures[])[0]?.p).toBeCloseTo(0.0091237, 6);
  });

  test("and the sentence says why", () => {
    expect(sentence).toContain(
      " The term nv has no finite estimate otherwise, so Firth's penalised likelihood is used for the whole model.",
    );
    expect(sentence).toContain(
      "odds ratio (95% Firth intervals, profile likelihood) of nv (per 1) 18.7 (1.84 to 2578)",
    );
  });

  test("a two by two table has half an eye more in every cell", () => {
    const eyes = groupsOfEyes([
      { technique: "one", failed: 0, attached: 22 },
      { technique: "two", failed: 7, attached: 356 },
    ]);
    const [log] = logs(ask("risk_model(eyes, technique)", { eyes }).figures);
    expect(log).toBeCloseTo(0.05476872954, 7);
  });
});

describe("risk_model on eyes", () => {
  const cells = {
    eyes: groupsOfEyes([
      { technique: "vitrectomy", pvr_grade: "none", failed: 18, attached: 70, lost: 9 },
      { technique: "vitrectomy", pvr_grade: "B", failed: 12, attached: 14, lost: 2 },
      { technique: "scleral buckle", pvr_grade: "none", failed: 9, attached: 34, lost: 12 },
      { technique: "scleral buckle", pvr_grade: null, failed: 2, attached: 3 },
    ]),
  };
  const { answer, sentence, lines, cautions } = ask(
    "risk_model(eyes, technique, pvr_grade)",
    cells,
  );

  test("only eyes whose outcome is known are in it; the others are counted and can be opened", () => {
    expect(answer.used).toBe(157);
    expect(answer.leftOut).toEqual([
      { reason: "pvr grade not recorded", count: 5, pick: "silent0" },
      { reason: "outcome at 12 months not known", count: 23, pick: "unknown" },
    ]);
    expect(lines("unknown")).toHaveLength(23);
    expect(sentence).toMatch(
      /^Logistic model on technique and pvr grade of 157 eyes whose outcome at 12 months is known, 39 failed within 12 months: odds ratio \(95% profile-likelihood intervals\) of technique scleral buckle against vitrectomy \d\.\d\d \(/,
    );
    expect(cautions).toEqual([
      "judged-on-own-eyes",
      "not-a-cause",
      "techniques-chosen",
      "many-not-known",
    ]);
  });

  test("few failures a column bring Firth's method; too few are refused", () => {
    const some = groupsOfEyes([
      { technique: "one", failed: 4, attached: 20 },
      { technique: "two", failed: 3, attached: 20 },
    ]);
    const few = ask("risk_model(eyes, technique)", { eyes: some });
    expect(few.figures.method).toBe("logistic, Firth");
    expect(few.sentence).toContain("Failures are few for so many columns, so Firth's");
    const many = ask('risk_model(eyes, technique, method: "Firth")', cells);
    expect(many.sentence).toContain(" Firth's penalised likelihood is used, as asked.");
    const none = groupsOfEyes([
      { technique: "one", failed: 1, attached: 20 },
      { technique: "two", failed: 0, attached: 20 },
    ]);
    expect(() => ask("risk_model(eyes, technique)", { eyes: none })).toThrow(
      "1 failure cannot carry a model of 1 column",
    );
    const all = groupsOfEyes([
      { technique: "one", failed: 9, attached: 1 },
      { technique: "two", failed: 9, attached: 0 },
    ]);
    expect(() => ask("risk_model(eyes, technique)", { eyes: all })).toThrow("cannot carry");
  });

  test("the error allows for two eyes of a patient", () => {
    // status ~ trt of Huster et al. 1989 by R's glm with a sandwich by patient: 0.1874466128.
    const eyes = workedOut(
      'eyes_from(cases, time: months, event: lost = 1, unit: "months", patient: person)',
      {
        cases: casesValue(
          csvCases("retinopathy.csv", { id: "person", futime: "months", status: "lost" }),
        ),
      },
    );
    const { figures, sentence: said, cautions: of } = ask("risk_model(eyes, trt)", { eyes });
    expect(logs(figures)[0]).toBeCloseTo(-1.0246329091, 8);
    const [lower = Number.NaN] = logs(figures, "ratio_lower");
    expect((-1.0246329091 - lower) / 1.959963985).toBeCloseTo(0.1874466128, 7);
    expect(said).toContain(
      "odds ratio (95% Wald interval, robust by patient) of trt (per 1) 0.36 (",
    );
    // With one covariate the robust Wald test is the square of its ratio to its error.
    expect(figures.overall_chi_square).toBeCloseTo((1.0246329091 / 0.1874466128) ** 2, 5);
    expect(of).toContain("paired-eyes");
    const shown = ask('risk_model(eyes, risk, show: "calibration")', { eyes });
    // Groups of eyes of two of a patient: Wilson's at the effective number.
    expect(shown.answer.table.columns.at(-1)?.label).toBe("failed (95% patient-clustered Wilson)");
  });

  test.each([
    ["risk_model(eyes, technique, technique)", "technique: scleral buckle can be told from"],
    ["risk_model(eyes, eye)", "is the same in all"],
    ["risk_model(eyes, operation_date)", "is a day"],
  ])("%s is refused in words", (asked, message) => {
    expect(() => ask(asked, cells)).toThrow(message);
  });
});
