import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { ask, casesValue, workedOut } from "./ask.ts";

/**
 * The data of Huster, Brookmeyer and Self, Biometrics 1989;45:145-156, as `retinopathy` in the R
 * package survival 3.5-3; the expected numbers were made by that package (survfit, survdiff).
 * Times are months. 197 patients, 394 eyes, 155 events.
 */
const { notebook } = readNotebook(readFileSync("notebooks/retinopathy.md", "utf8"));
const reading = readCases(
  {
    name: "retinopathy.csv",
    bytes: new Uint8Array(readFileSync("tests/references/data/retinopathy.csv")),
  },
  { matching: notebook.front.matching },
);
const definitions = new Map(
  notebook.blocks.flatMap((block) =>
    block.type === "row" ? block.definitions.map(({ name, working }) => [name, working]) : [],
  ) as [string, string][],
);
const working = (name: string): string => definitions.get(name) ?? "";
const cells = { eyes: workedOut(working("eyes"), { cases: casesValue(reading) }) };

interface GroupFigures {
  readonly group: string;
  readonly eyes: number;
  readonly failed: number;
  readonly median: number | null;
  readonly median_lower: number | null;
  readonly median_upper: number | null;
  readonly landmarks: readonly { readonly attached: number; readonly standard_error: number }[];
}

const digits = 9;

describe("the retinopathy notebook over the published data", () => {
  test("all 394 eyes of 197 patients are read, none left out", () => {
    expect(reading).toMatchObject({ rowsRead: 394, leftOut: [] });
    const { answer, cautions } = ask(working("how_often"), cells);
    expect(answer.figures).toMatchObject({ failed: 155, eyes: 394 });
    expect(cautions).toContain("paired-eyes");
  });

  test("survival at 12 to 60 months and medians by treatment", () => {
    const { answer } = ask(working("arm"), cells);
    const groups = answer.figures.groups as unknown as readonly GroupFigures[];
    const [laser, none] = groups;
    expect(groups.map(({ group }) => group)).toEqual(["laser", "no laser"]);
    expect(laser).toMatchObject({ eyes: 197, failed: 54, median: null });
    expect(none).toMatchObject({ eyes: 197, failed: 101, median: 43.7 });
    const expectedNone = [0.782939907, 0.6333910032, 0.5605236058, 0.4721416238, 0.4136191356];
    const expectedLaser = [0.8858435805, 0.8098231683, 0.7455045056, 0.7086620329, 0.6992132058];
    for (const [position, expected] of expectedNone.entries()) {
      expect(none?.landmarks[position]?.attached).toBeCloseTo(expected, digits);
    }
    for (const [position, expected] of expectedLaser.entries()) {
      expect(laser?.landmarks[position]?.attached).toBeCloseTo(expected, digits);
    }
  });

  test("both eyes pooled, with the error clustered by patient", () => {
    const { answer } = ask(working("both_eyes"), cells);
    const { landmarks } = answer.figures as unknown as GroupFigures;
    const survival = [0.834320367, 0.720923653, 0.6522063813, 0.5892238321, 0.5540155836];
    // survfit(Surv(futime, status) ~ 1, cluster = id, conf.type = "log-log")
    const robust = [0.0203188353, 0.0251568637, 0.0273227091, 0.0287652667, 0.0303702005];
    for (const [position, landmark] of landmarks.entries()) {
      expect(landmark.attached).toBeCloseTo(survival[position] ?? Number.NaN, digits);
      expect(landmark.standard_error).toBeCloseTo(robust[position] ?? Number.NaN, digits);
    }
  });

  test("the log-rank test", () => {
    const { answer, sentence } = ask(working("differ"), cells);
    expect(answer.figures.chi_square).toBeCloseTo(22.2456947, 6);
    expect(answer.figures.degrees_of_freedom).toBe(1);
    expect(sentence).toBe(
      "The curves of laser and no laser differ by more than chance alone would readily give " +
        "(log-rank test: chi-square 22.25 on 1 degree of freedom, p < 0.0001). Hazard ratio against " +
        "laser (95% Wald interval, robust by patient): no laser 2.17 (1.63 to 2.90).",
    );
  });

  test("the hazard ratio, with the error that allows for two eyes of a patient", () => {
    // coxph with Efron's ties and cluster(id): 0.4599500375 (0.3445020215 to 0.6140864894).
    const { figures } = ask(`${working("differ").slice(0, -1)}, against: "no laser")`, cells);
    expect(figures.hazard_ratio).toBeCloseTo(0.4599500375, 7);
    expect(figures.hazard_ratio_lower).toBeCloseTo(0.3445020215, 7);
    expect(figures.hazard_ratio_upper).toBeCloseTo(0.6140864894, 7);
  });
});
