import { describe, expect, test } from "vitest";
import { effectText } from "../../src/charts/effect-intervals.ts";
import { ask, casesValue, workedOut } from "./ask.ts";
import { csvCases } from "./csv-cases.ts";
import { eyesOf, groupsOfEyes, type Row, rowsOfGroups } from "./groups-of-eyes.ts";

interface TermFigures {
  readonly term: string;
  readonly level: string;
  readonly eyes: number;
  readonly failed: number;
  readonly ratio: number | null;
  readonly ratio_lower: number;
  readonly ratio_upper: number;
}

function termsOf(working: string, cells: Parameters<typeof ask>[1]): readonly TermFigures[] {
  return ask(working, cells).figures.terms as unknown as readonly TermFigures[];
}

/** The data `lung` of the R package survival 3.5-3: 228 rows, one without its performance score. */
const lung = {
  eyes: workedOut("eyes_from(cases, time: days, event: dead = 2)", {
    cases: casesValue(csvCases("lung.csv", { time: "days", status: "dead" })),
  }),
};

describe("hazard_model on published data", () => {
  const working = "hazard_model(eyes, age, sex, ph_ecog)";
  const { answer, sentence, figures, rows, cautions, lines } = ask(working, lung);

  test("Cox with Efron's ties, as R's coxph gives it", () => {
    const logs = termsOf(working, lung).map(({ ratio }) => Math.log(ratio ?? Number.NaN));
    expect(logs[0]).toBeCloseTo(0.01106676456, 8);
    expect(logs[1]).toBeCloseTo(-0.5526123957, 8);
    expect(logs[2]).toBeCloseTo(0.46372847537, 8);
    expect(figures.overall_chi_square).toBeCloseTo(2 * (744.4804558 - 729.2301214), 5);
    expect(figures.concordance).toBeCloseTo(0.63713549, 7);
    expect(figures.proportional_hazards_p).toBeCloseTo(0.21555, 4);
  });

  test("the eye without one of the terms is left out, counted, and can be opened", () => {
    expect(figures).toMatchObject({ eyes: 227, failed: 164 });
    expect(answer.leftOut).toEqual([{ reason: "ph ecog not recorded", count: 1, pick: "silent0" }]);
    expect(lines("silent0")).toEqual([[15]]);
    expect(sentence).toContain("1 eye is left out: ph ecog not recorded.");
  });

  test("sentence, table and chart say the same to the displayed digit", () => {
    if (answer.chart?.draw !== "effects") throw new Error("no ratios are drawn");
    const { effects } = answer.chart;
    expect(effects.rows.map((row) => effectText(row, effects.scale))).toEqual(
      rows.map((row) => row[4]),
    );
    expect(sentence).toMatch(
      /^Cox model on age, sex and ph ecog of 227 eyes, 164 failed: hazard ratio \(95% Wald intervals\) of age \(per 1\) 1\.01 \(0\.99 to 1\.03\); of sex \(per 1\) 0\.58 \(0\.41 to 0\.80\); /,
    );
    expect(cautions).toEqual(["not-a-cause"]);
  });
});

describe("hazard_model with two eyes of a patient", () => {
  // Huster et al., Biometrics 1989;45:145; coxph(..., cluster(id)) of R's survival 3.5-3.
  const cells = {
    eyes: workedOut(
      'eyes_from(cases, time: months, event: lost = 1, unit: "months", patient: person)',
      {
        cases: casesValue(
          csvCases("retinopathy.csv", { id: "person", futime: "months", status: "lost" }),
        ),
      },
    ),
  };
  const working = 'hazard_model(eyes, trt, type = "adult", risk)';

  test("errors are clustered by patient, and said to be", () => {
    const { sentence, cautions, figures } = ask(working, cells);
    expect(figures.clustered).toBe(true);
    expect(cautions).not.toContain("paired-eyes");
    expect(sentence).toContain(
      "hazard ratio (95% Wald intervals, robust by patient) of trt (per 1) 0.46 (",
    );
    const terms = termsOf(working, cells).filter(({ ratio }) => ratio !== null);
    const expected = [
      [-0.78150605664, 0.1510037901],
      [0.07017047639, 0.177379487],
      [0.14701674493, 0.0588114691],
    ];
    terms.forEach(({ ratio, ratio_lower, ratio_upper }, i) => {
      const [log = Number.NaN, error = Number.NaN] = expected[i] ?? [];
      expect(Math.log(ratio ?? Number.NaN)).toBeCloseTo(log, 7);
      const width = Math.log(ratio_upper / ratio_lower) / (2 * 1.959963985);
      expect(width).toBeCloseTo(error, 6);
    });
  });
});

describe("hazard_model on eyes", () => {
  const rows: Row[] = rowsOfGroups([
    { technique: "vitrectomy", pvr_grade: "none", failed: 12, attached: 60 },
    { technique: "vitrectomy", pvr_grade: "B", failed: 9, attached: 11 },
    { technique: "scleral buckle", pvr_grade: "none", failed: 6, attached: 24 },
    { technique: "scleral buckle", pvr_grade: "B", failed: 5, attached: 5 },
    { technique: "pneumatic retinopexy", pvr_grade: null, failed: 2, attached: 2 },
  ]).map((row, i) => ({ ...row, redetachment_date: shifted(row.redetachment_date, i) }));
  const cells = { eyes: eyesOf(rows) };
  const {
    answer,
    rows: table,
    lines,
    cautions,
  } = ask("hazard_model(eyes, technique, pvr_grade)", cells);

  test("groups stand against the commonest, each count leading to its eyes", () => {
    expect(table.map((row) => row.slice(0, 5))).toEqual([
      ["technique", "vitrectomy", "92", "21", "reference"],
      ["technique", "scleral buckle", "40", "11", expect.stringMatching(/^\d\.\d\d \(/)],
      ["pvr grade", "none", "102", "18", "reference"],
      ["pvr grade", "B", "30", "14", expect.stringMatching(/^\d\.\d\d \(/)],
    ]);
    expect(lines(answer.table.rows[3]?.[3]?.pick)).toHaveLength(14);
    expect(cautions).toEqual(["not-a-cause", "techniques-chosen"]);
  });

  test("a term of yes or no, an expression and several codes", () => {
    const { sentence } = ask('hazard_model(eyes, pvr_grade = "B", within: 6 months)', cells);
    expect(sentence).toMatch(
      /within 6 months: hazard ratio \(95% Wald interval\) of pvr_grade = "B" \d\.\d\d \(/,
    );
  });

  test("a level in which none failed has a finite ratio by Firth's method, and says so", () => {
    const eyes = groupsOfEyes([
      { technique: "vitrectomy", failed: 12, attached: 60 },
      { technique: "scleral buckle", failed: 0, attached: 20 },
    ]);
    const { sentence, figures } = ask("hazard_model(eyes, technique)", { eyes });
    expect(sentence).toContain(
      "The ordinary estimate for technique: scleral buckle has no end, so Firth's penalised likelihood is used.",
    );
    expect(figures.method).toBe("Cox, Firth");
    const [, buckle] = termsOf("hazard_model(eyes, technique)", { eyes });
    expect(buckle?.ratio).toBeGreaterThan(0);
    expect(buckle?.ratio_upper).toBeGreaterThan(buckle?.ratio ?? 0);
  });

  test("few failures a column are cautioned, too few are refused", () => {
    const some = groupsOfEyes([
      { technique: "vitrectomy", failed: 6, attached: 20 },
      { technique: "scleral buckle", failed: 3, attached: 20 },
    ]);
    expect(ask("hazard_model(eyes, technique)", { eyes: some }).cautions).toContain(
      "few-failures-per-column",
    );
    const few = groupsOfEyes([
      { technique: "vitrectomy", failed: 2, attached: 20 },
      { technique: "scleral buckle", failed: 2, attached: 20 },
    ]);
    expect(() => ask("hazard_model(eyes, technique)", { eyes: few })).toThrow(
      "4 failures cannot carry a model of 1 column",
    );
  });

  test.each([
    ["hazard_model(eyes, technique, technique)", "technique: scleral buckle can be told from"],
    ["hazard_model(eyes, eye)", "eye is the same in all 136 eyes of the model"],
    ["hazard_model(eyes, operation_date)", "operation_date is a day"],
    ["hazard_model(eyes, patient)", "patient takes 136 different values, too many for a term"],
    ["hazard_model(eyes, pvr_grad)", "pvr_grade"],
    ["hazard_model(eyes)", "needs `on`"],
    ["hazard_model(eyes, technique, witin: 6 months)", "is all but the argument `within`"],
  ])("%s is refused in words", (working, message) => {
    expect(() => ask(working, cells)).toThrow(message);
  });

  test("no person is named in the sentence", () => {
    const eyes = groupsOfEyes([
      { surgeon: "A", failed: 12, attached: 60 },
      { surgeon: "B", failed: 9, attached: 20 },
    ]);
    const { sentence, cautions: said } = ask("hazard_model(eyes, surgeon)", { eyes });
    expect(sentence).toContain("21 failed within 12 months: its hazard ratio stands in the table.");
    expect(said).toContain("comparing-people");
  });

  function shifted(day: Row[string] | undefined, by: number): number | null {
    return typeof day === "number" ? day + ((by * 17) % 37) : null;
  }
});
