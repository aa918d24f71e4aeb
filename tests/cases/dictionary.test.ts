import { describe, expect, test } from "vitest";
import { describeDictionary } from "../../src/cases/describe-dictionary.ts";
import { dictionary, fieldNamed } from "../../src/cases/dictionary.ts";
import { foldSpelling } from "../../src/cases/fold-spelling.ts";
import { privateByHeading } from "../../src/cases/privacy/private-heading.ts";

/** The fields that the project promises; a field more is made from another one. */
const promised = `case patient eye operation_date operation_number centre surgeon surgeon_grade
supervision supervisor age sex smoker lens media_opacity pvd symptom_days macula macula_off_days
clock_hours_detached quadrants_detached break_type break_count break_clock_hours posterior_break
lattice vitreous_haemorrhage pvr_grade pvr_clock_hours pvr_zone choroidal_detachment uveitis
previous_cryotherapy previous_vitrectomy trauma hypotony axial_length refraction gas_unsuitable
acuity_before technique buckle_element retinopexy subretinal_drainage heavy_liquid
vitreous_base_trim membrane_peel retinectomy lens_removed tamponade gas_percent
operative_complication last_seen_date status_last_seen redetachment_date never_attached
failure_cause reoperation_date reoperation_technique oil_removed_date operations_total final_status
death_date acuity_after acuity_after_date complication`.split(/\s+/);

describe("the dictionary", () => {
  test("has every field, once", () => {
    const names = dictionary
      .filter(({ madeFrom }) => madeFrom === undefined)
      .map(({ name }) => name);
    expect(new Set(names)).toEqual(new Set(promised));
    expect(names).toHaveLength(promised.length);
  });

  test("made fields name what they are made from", () => {
    const made = dictionary.filter(({ madeFrom }) => madeFrom !== undefined);
    for (const { name, madeFrom } of made) expect(promised, name).toContain(madeFrom);
  });

  test("no heading stands for two fields, or is private", () => {
    const owner = new Map<string, string>();
    for (const field of dictionary) {
      for (const spelling of [field.name, field.label, ...field.headings].map(foldSpelling)) {
        expect(spelling, field.name).not.toBe("");
        expect(owner.get(spelling) ?? field.name, spelling).toBe(field.name);
        expect(privateByHeading(spelling), spelling).toBeUndefined();
        owner.set(spelling, field.name);
      }
    }
  });

  test("no spelling stands for two codes of a field", () => {
    for (const field of dictionary) {
      const owner = new Map<string, string>();
      for (const { code, spellings } of field.codes ?? []) {
        for (const spelling of [code, ...spellings].map((text) => foldSpelling(text) || text)) {
          expect(owner.get(spelling) ?? code, `${field.name}: ${spelling}`).toBe(code);
          owner.set(spelling, code);
        }
      }
    }
  });

  test("every field of codes has codes, every range two ends in order, every meaning one line", () => {
    for (const { name, kind, codes, range, meaning } of dictionary) {
      if (kind === "code" || kind === "codes") expect(codes?.length ?? 0, name).toBeGreaterThan(1);
      if (range !== undefined) expect(range.least, name).toBeLessThan(range.most);
      expect(meaning, name).toMatch(/^[^\n]{5,100}\.$/);
    }
  });

  test("is described in words", () => {
    const described = new Map(describeDictionary().map((field) => [field.name, field.holds]));
    expect(described.get("age")).toBe("number (0 to 115 years)");
    expect(described.get("operation_number")).toBe("number (1 or more)");
    expect(described.get("macula")).toBe("one of: on, split, off");
    expect(described.get("operation_date")).toBe("date");
    expect(described.get("trauma")).toBe("yes or no");
    expect(described.size).toBe(dictionary.length);
  });

  test("gives no field for an object's own words", () => {
    expect(fieldNamed("constructor")).toBeUndefined();
    expect(fieldNamed("age")?.unit).toBe("years");
  });
});
