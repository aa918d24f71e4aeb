import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import { fieldReader } from "../../src/outcomes/episode.ts";
import { recordedFactors, riskOfEye } from "../../src/outcomes/risk-stratum.ts";
import { casesOf } from "./cases-of.ts";

const none: Record<string, CellValue> = {
  pvr_grade: "none",
  vitreous_haemorrhage: false,
  smoker: "never",
  lens: "phakic",
  uveitis: false,
  quadrants_detached: 2,
  break_type: ["horseshoe tear"],
  choroidal_detachment: false,
};

function risk(over: Record<string, CellValue>) {
  const { cases } = casesOf([{ ...none, ...over }]);
  const factors = recordedFactors((field) => cases.positions.has(field));
  return riskOfEye(fieldReader(cases), 0, factors);
}

describe("factors for failure by scar tissue", () => {
  // PVR, haemorrhage, smoking: common practice, no source.
  // Aphakia, uveitis, over two quadrants, giant tear, choroidals: Retina 1994;14:417.
  test.each<[string, Record<string, CellValue>]>([
    ["PVR", { pvr_grade: "B" }],
    ["PVR", { pvr_grade: "C" }],
    ["vitreous haemorrhage", { vitreous_haemorrhage: true }],
    ["current smoker", { smoker: "current" }],
    ["aphakia", { lens: "aphakic" }],
    ["uveitis", { uveitis: true }],
    ["more than two quadrants", { quadrants_detached: 3 }],
    ["giant tear", { break_type: ["round hole", "giant tear"] }],
    ["choroidal detachment", { choroidal_detachment: true }],
  ])("%s makes the middle stratum", (name, over) => {
    expect(risk(over)).toMatchObject({ present: [name], stratum: "middle" });
  });

  test.each<[Record<string, CellValue>]>([
    [{ pvr_grade: "A" }],
    [{ smoker: "former" }],
    [{ lens: "pseudophakic" }],
    [{ quadrants_detached: 2 }],
  ])("%o is none", (over) => {
    expect(risk(over)).toMatchObject({ present: [], stratum: "low" });
  });

  test("two or more make the high stratum", () => {
    expect(risk({ pvr_grade: "C", smoker: "current" }).stratum).toBe("high");
  });

  test("clock hours stand in where quadrants are missing; a started quadrant counts", () => {
    const hours = (clock_hours_detached: number) =>
      risk({ quadrants_detached: null, clock_hours_detached }).present;
    expect(hours(6)).toEqual([]);
    expect(hours(6.5)).toEqual(["more than two quadrants"]);
  });

  test("a missing factor gives no stratum where it could move it, and one where it could not", () => {
    expect(risk({ smoker: null })).toMatchObject({ silent: ["current smoker"], stratum: null });
    expect(risk({ smoker: null, pvr_grade: "C", uveitis: true }).stratum).toBe("high");
  });

  test("a factor the file has no column for is not silent", () => {
    const { cases } = casesOf([{ pvr_grade: "C" }]);
    const factors = recordedFactors((field) => cases.positions.has(field));
    expect(factors.map((factor) => factor.name)).toEqual(["PVR"]);
    expect(riskOfEye(fieldReader(cases), 0, factors).stratum).toBe("middle");
  });

  test("with no factor in the file there is no stratum", () => {
    const { cases } = casesOf([{ age: 50 }]);
    expect(riskOfEye(fieldReader(cases), 0, []).stratum).toBeNull();
  });
});
