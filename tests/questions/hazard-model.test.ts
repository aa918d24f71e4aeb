import { describe, expect, test } from "vitest";
import { effectText } from "../../src/charts/effect-intervals.ts";
import { carryingPatients } from "../../src/questions/modelling/clustered-effects.ts";
import { primary } from "../outcomes/cases-of.ts";
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
    const { sentence, answer, figures } = ask(working, cells);
    expect(figures.clustered).toBe(true);
    expect(answer.cautions.find(({ code }) => code === "paired-eyes")?.text).toBe(
      "197 patients give more than one eye; the intervals allow for it (clustered by patient).",
    );
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

/** Eyes by twos, each two of a patient; every third patient's second eye fails. */
function pairsOf(groups: readonly { technique: string; pairs: number; failing: number }[]) {
  const rows: Row[] = groups.flatMap(({ technique, pairs, failing }) =>
    Array.from({ length: 2 * pairs }, (_, eye) => {
      const pair = Math.floor(eye / 2);
      const fails = eye % 2 === 1 && pair < failing;
      return primary({
        patient: `${technique} ${pair}`,
        eye: eye % 2 === 0 ? "right" : "left",
        technique,
        status_last_seen: "attached",
        last_seen_date: 1400,
        ...(fails ? { redetachment_date: 1020 + pair } : {}),
      });
    }),
  );
  return { eyes: eyesOf(rows) };
}

describe("a column that the eyes cannot support, with two eyes of a patient", () => {
  const most = { technique: "vitrectomy", pairs: 40, failing: 20 };

  test("a level in which none failed: Firth's limits, no robust error, and eyes said to be independent", () => {
    const cells = pairsOf([most, { technique: "scleral buckle", pairs: 12, failing: 0 }]);
    const { sentence, figures, cautions } = ask("hazard_model(eyes, technique)", cells);
    expect(figures.method).toBe("Cox, Firth");
    expect(figures.clustered).toBe(false);
    expect(cautions).toContain("paired-eyes");
    expect(sentence).toContain(
      "No eye with technique: scleral buckle failed, so Firth's penalised likelihood is used for the whole model; its limits treat eyes as independent.",
    );
    expect(sentence).not.toContain("robust");
    const [, buckle] = termsOf("hazard_model(eyes, technique)", cells);
    // The width of a tiny robust error would be a ratio of limits near 1.
    expect((buckle?.ratio_upper ?? 0) / (buckle?.ratio_lower ?? 1)).toBeGreaterThan(20);
  });

  test("a level of one patient has no smaller error than the model's own, and is named", () => {
    const cells = pairsOf([most, { technique: "scleral buckle", pairs: 1, failing: 1 }]);
    const working = "hazard_model(eyes, technique)";
    const { answer, sentence, figures } = ask(working, cells);
    expect(figures).toMatchObject({ method: "Cox, Efron", clustered: true });
    expect(sentence).toContain("95% Wald interval, the larger of robust and model error");
    const said = answer.cautions.map(({ text }) => text).join("\n");
    expect(said).toContain("Fewer than 10 patients tell of technique: scleral buckle");
    expect(said).toContain("Fewer than 10 eyes in technique: scleral buckle (2)");
    // The same eyes, each of a patient of its own: the model's error alone.
    const alone = groupsOfEyes([
      { technique: "vitrectomy", failed: 20, attached: 60 },
      { technique: "scleral buckle", failed: 1, attached: 1 },
    ]);
    const widthOf = (of: Parameters<typeof ask>[1]): number => {
      const level = termsOf(working, of).find(({ level }) => level === "scleral buckle");
      return Math.log((level?.ratio_upper ?? 0) / (level?.ratio_lower ?? 1));
    };
    expect(widthOf(cells)).toBeGreaterThan(0.9 * widthOf({ eyes: alone }));
  });

  test("of few failures no error is smaller than the model's own, however many patients give two eyes", () => {
    const groupsOf = (failing: number) =>
      pairsOf([
        { technique: "vitrectomy", pairs: 60, failing },
        { technique: "scleral buckle", pairs: 60, failing },
      ]);
    for (const model of [
      "hazard_model(eyes, technique)",
      'risk_model(eyes, technique, method: "maximum likelihood")',
      "curve_comparison(eyes, by: technique)",
    ]) {
      const method = "95% Wald interval, the larger of robust and model error";
      // one eye of each failing pair: 28 and 30 failures
      expect(ask(model, groupsOf(14)).sentence).toContain(method);
      expect(ask(model, groupsOf(15)).sentence).not.toContain(method);
      expect(ask(model, groupsOf(15)).sentence).toContain("95% Wald interval, robust by patient");
    }
  });

  test("risk_model does the same", () => {
    const cells = pairsOf([most, { technique: "scleral buckle", pairs: 1, failing: 1 }]);
    const { sentence, figures } = ask(
      'risk_model(eyes, technique, method: "maximum likelihood")',
      cells,
    );
    expect(sentence).toContain("95% Wald interval, the larger of robust and model error");
    const [, buckle] = figures.terms as unknown as readonly TermFigures[];
    // Woolf's error of the log odds ratio of 1 of 2 against 20 of 80.
    const error = Math.sqrt(1 / 1 + 1 / 1 + 1 / 20 + 1 / 60);
    const width = Math.log((buckle?.ratio_upper ?? 0) / (buckle?.ratio_lower ?? 1));
    expect(width).toBeGreaterThanOrEqual(2 * 1.959963985 * error - 1e-6);
  });

  test("the patients that carry a column", () => {
    const patients = Array.from({ length: 100 }, (_, eye) => `P${Math.floor(eye / 2)}`);
    const level = patients.map((patient) => (patient === "P7" ? 1 : 0));
    const evenly = patients.map((_, eye) => eye % 2);
    expect(carryingPatients(level, patients)).toBeCloseTo(1.04, 1);
    expect(carryingPatients(evenly, patients)).toBeCloseTo(50, 9);
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
      "No eye with technique: scleral buckle failed, so Firth's penalised likelihood is used for the whole model.",
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
    [
      "hazard_model(eyes, technique, technique)",
      "technique can be told from what stands before it",
    ],
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
