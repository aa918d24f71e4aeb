import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import {
  buckleFeatures,
  recordedFeatures,
  type SuitabilityOptions,
  suitabilityOf,
} from "../../src/outcomes/buckle-suitability.ts";

type Row = Readonly<Record<string, CellValue>>;

/** An old pseudophakic eye with one horseshoe tear and clear media: nothing either way. */
const plain: Row = {
  pvd: "present",
  age: 70,
  lens: "pseudophakic",
  media_opacity: false,
  vitreous_haemorrhage: false,
  break_type: ["horseshoe tear"],
  gas_unsuitable: false,
  lattice: "none",
  posterior_break: false,
  pvr_grade: "none",
};

function suitability(over: Row, options: SuitabilityOptions = {}) {
  const row: Row = { ...plain, ...over };
  return suitabilityOf((field) => row[field] ?? null, options);
}

// The features themselves: common practice, no source.
describe("features for and against a buckle", () => {
  test.each<[string, Row]>([
    ["no posterior vitreous detachment", { pvd: "absent" }],
    ["young", { age: 49 }],
    ["phakic without significant cataract", { lens: "phakic" }],
    ["dialysis", { break_type: ["dialysis"] }],
    ["round holes only", { break_type: ["round hole"] }],
    ["gas ruled out", { gas_unsuitable: true }],
    ["extensive lattice", { lattice: "extensive" }],
  ])("%s speaks for", (name, over) => {
    expect(suitability(over)).toMatchObject({
      for: [name],
      against: [],
      stratum: "only features for",
    });
  });

  test.each<[string, Row]>([
    ["media opacity", { media_opacity: true }],
    ["media opacity", { vitreous_haemorrhage: true }],
    ["posterior break", { posterior_break: true }],
    ["macular hole", { break_type: ["macular hole", "horseshoe tear"] }],
    ["no break found", { break_type: ["none found"] }],
    ["giant tear", { break_type: ["giant tear"] }],
    ["PVR grade C", { pvr_grade: "C" }],
  ])("%s speaks against", (name, over) => {
    expect(suitability(over)).toMatchObject({
      for: [],
      against: [name],
      stratum: "only features against",
    });
  });

  test.each<[string, Row]>([
    ["plain", {}],
    ["partial detachment of the vitreous", { pvd: "partial" }],
    ["fifty is not young", { age: 50 }],
    ["round holes beside a tear", { break_type: ["round hole", "horseshoe tear"] }],
    ["some lattice", { lattice: "present" }],
    ["PVR B", { pvr_grade: "B" }],
  ])("%s is no feature either way", (_, over) => {
    expect(suitability(over)).toMatchObject({ for: [], against: [] });
    expect(suitability(over).stratum).toBe("no feature either way");
  });

  test("a phakic eye with an opacity is not clear, and the opacity speaks against", () => {
    expect(suitability({ lens: "phakic", media_opacity: true })).toMatchObject({
      for: [],
      against: ["media opacity"],
    });
  });

  test("both ways is its own stratum, however many there are of each", () => {
    expect(suitability({ age: 30, lattice: "extensive", pvr_grade: "C" }).stratum).toBe(
      "features for and against",
    );
  });

  test("what counts as young is the reader's to say", () => {
    expect(suitability({ age: 59 }, { young: 60 }).for).toEqual(["young"]);
  });
});

describe("what is not recorded", () => {
  test("a silent feature that could move the stratum leaves none", () => {
    expect(suitability({ lattice: null })).toMatchObject({
      silent: ["extensive lattice"],
      stratum: null,
    });
    expect(suitability({ age: 30, posterior_break: null }).stratum).toBeNull();
  });

  test("one that could not move it leaves it alone", () => {
    expect(suitability({ age: 30, lattice: null }).stratum).toBe("only features for");
    expect(suitability({ age: 30, pvr_grade: "C", posterior_break: null }).stratum).toBe(
      "features for and against",
    );
  });

  test("a haemorrhage that is recorded does not need the other opacity", () => {
    const known = suitability({ vitreous_haemorrhage: true, media_opacity: null });
    expect(known.against).toEqual(["media opacity"]);
  });

  test("a feature the file has no column for is not silent", () => {
    const features = recordedFeatures((field) => ["age", "pvr_grade"].includes(field));
    expect(features.map(({ name }) => name)).toEqual(["young", "PVR grade C"]);
    expect(suitability({ lattice: null, age: 30 }, { features }).silent).toEqual([]);
    expect(buckleFeatures).toHaveLength(13);
  });
});
