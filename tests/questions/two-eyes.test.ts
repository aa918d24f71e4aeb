import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { ask, casesValue, workedOut } from "./ask.ts";
import { eyesOf, rowsOfGroups } from "./groups-of-eyes.ts";

/**
 * Two eyes of one patient. The data are those of Huster, Brookmeyer and Self, Biometrics
 * 1989;45:145-156 (197 patients, 394 eyes, one treated each), as `retinopathy` in the R package
 * survival 3.5-3. Expected numbers were made in R 4.2.2: odds and risk ratio by glm (binomial, and
 * Poisson) with the sandwich of scores summed by patient times G / (G - 1); the difference by the
 * ratio estimator's variances and correlation, worked out by hand.
 */
const { notebook } = readNotebook(readFileSync("notebooks/retinopathy.md", "utf8"));
const reading = readCases(
  {
    name: "retinopathy.csv",
    bytes: new Uint8Array(readFileSync("tests/references/data/retinopathy.csv")),
  },
  { matching: notebook.front.matching },
);
const from = 'time: months_followed, event: lost_vision = 1, unit: "months"';
const cells = {
  eyes: workedOut(`eyes_from(cases, ${from}, patient: person)`, { cases: casesValue(reading) }),
};
const byArm = 'by: if treated = 1 then "laser" else "no laser"';

describe("both eyes of 197 patients", () => {
  test("the difference, risk ratio and odds ratio of one eye against the other", () => {
    const { answer, sentence } = ask(`rate_difference(eyes, ${byArm}, against: "no laser")`, cells);
    const figures = answer.figures as Readonly<Record<string, number>>;
    const expected: Readonly<Record<string, number>> = {
      difference: -0.238578680203,
      difference_lower: -0.31746447871,
      difference_upper: -0.154492257893,
      risk_ratio_lower: 0.422052953587,
      risk_ratio_upper: 0.677294935571,
      odds_ratio_lower: 0.248339742077,
      odds_ratio_upper: 0.518762933575,
    };
    for (const [name, value] of Object.entries(expected)) {
      expect(figures[name], name).toBeCloseTo(value, 8);
    }
    expect(sentence).toContain("95% patient-clustered hybrid score interval −31.7 to −15.4");
  });

  test("the caution says what the intervals and the tests make of it", () => {
    const said = (working: string): string | undefined =>
      ask(working, cells).answer.cautions.find(({ code }) => code === "paired-eyes")?.text;
    expect(said("failure_rate(eyes)")).toBe(
      "197 patients give more than one eye; the intervals allow for it (clustered by patient).",
    );
    expect(said(`rate_difference(eyes, ${byArm})`)).toBe(
      "197 patients give more than one eye; the intervals allow for it (clustered by patient); the tests treat eyes as independent.",
    );
    expect(said('failure_rate(eyes, interval: "Clopper–Pearson")')).toBe(
      "197 patients give more than one eye; the exact interval treats eyes as independent.",
    );
  });

  test("the rate of all eyes by the ratio estimator", () => {
    const { figures, sentence } = ask("failure_rate(eyes)", cells);
    // By hand: p = 155/394; 197 patients of two eyes, x of them failed: variance
    // G/(G-1) sum (x - 2p)^2 / 394^2; Wilson at 394 over the design effect.
    const p = 155 / 394;
    const both = 38;
    const one = 155 - 2 * both;
    const none = 197 - one - both;
    const squares = none * (2 * p) ** 2 + one * (1 - 2 * p) ** 2 + both * (2 - 2 * p) ** 2;
    const effective = (p * (1 - p)) / (((197 / 196) * squares) / 394 ** 2);
    const z = 1.959963984540054;
    const centre = p + z ** 2 / (2 * effective);
    const width = z * Math.sqrt((p * (1 - p)) / effective + z ** 2 / (4 * effective ** 2));
    expect(figures.lower).toBeCloseTo((centre - width) / (1 + z ** 2 / effective), 12);
    expect(figures.upper).toBeCloseTo((centre + width) / (1 + z ** 2 / effective), 12);
    expect(sentence).toContain("95% patient-clustered Wilson interval");
  });
});

describe("curves of both eyes", () => {
  test("the incidence has the error clustered by patient, as R's survfit with cluster has it", () => {
    const at = "landmarks: [12 months, 36 months]";
    const { figures, sentence, answer } = ask(`failure_incidence(eyes, ${at})`, cells);
    const [lost] = figures.causes as unknown as readonly {
      readonly landmarks: readonly {
        readonly incidence: number;
        readonly standard_error: number;
      }[];
    }[];
    expect(lost?.landmarks.map(({ incidence }) => incidence)).toEqual([
      expect.closeTo(0.165679633046, 9),
      expect.closeTo(0.347793618663, 9),
    ]);
    expect(lost?.landmarks.map((each) => each.standard_error)).toEqual([
      expect.closeTo(0.0203188353272, 9),
      expect.closeTo(0.0273227091477, 9),
    ]);
    expect(sentence).toContain("95% patient-clustered log-log intervals");
    expect(answer.cautions.find(({ code }) => code === "paired-eyes")?.text).toBe(
      "197 patients give more than one eye; the intervals allow for it (clustered by patient).",
    );
    const gray = ask(`failure_incidence(eyes, ${byArm}, variance: "Gray", ${at})`, cells);
    expect(gray.sentence).toContain("95% log-log intervals, Gray's variance");
    expect(gray.answer.cautions.find(({ code }) => code === "paired-eyes")?.text).toContain(
      "the intervals and the test treat eyes as independent",
    );
  });

  test("where none failed the exact limit counts patients, and is said to", () => {
    const rows = rowsOfGroups([
      { failed: 0, attached: 12, lost: 2 },
      { failed: 0, attached: 12, lost: 2, eye: "left" },
    ]).map((row, at) => ({ ...row, patient: `P${at % 14}` }));
    const pairs = { eyes: eyesOf(rows) };
    // 14 patients, 28 eyes; at the window 12 patients are still followed.
    const rate = ask("failure_rate(eyes)", pairs);
    expect(rate.figures.curve_upper).toBeCloseTo(1 - 0.025 ** (1 / 12), 12);
    expect(rate.sentence).toContain("95% patient-clustered exact binomial interval");
    const curve = ask("attachment_curve(eyes)", pairs);
    expect(curve.rows[0]?.join(" ")).toContain("100.0% (73.5");
    const incidence = ask("failure_incidence(eyes)", pairs);
    expect(incidence.rows[0]?.at(-1)).toBe("0.0% (0.0 – 26.5)");
  });

  test("a group of one patient of whom one eye failed is no certainty", () => {
    const rows = rowsOfGroups([{ failed: 1, attached: 1 }]).map((row, at) => ({
      ...row,
      patient: "P1",
      eye: at === 0 ? "right" : "left",
    }));
    const { rows: table } = ask("attachment_curve(eyes)", { eyes: eyesOf(rows) });
    expect(table[0]?.join(" ")).toMatch(/50\.0% \([01]\.\d – 9\d\.\d\)/);
  });
});

describe("no patient with two eyes", () => {
  const rows = rowsOfGroups([
    { failed: 7, attached: 40, lost: 5, technique: "vitrectomy" },
    { failed: 9, attached: 33, lost: 4, technique: "scleral buckle" },
  ]);
  const single = eyesOf(rows);

  test.each([
    "failure_rate(eyes, by: technique)",
    "rate_difference(eyes, by: technique, within: 6 months)",
    "attachment_curve(eyes, by: technique)",
    "failure_causes(eyes, by: technique)",
  ])("%s is as it is for eyes on their own", (working) => {
    const { answer, sentence } = ask(working, { eyes: single });
    expect(JSON.stringify(answer)).not.toContain("patient-clustered");
    expect(sentence).not.toContain("clustered");
    expect(answer.cautions.map(({ code }) => code)).not.toContain("paired-eyes");
  });
});
