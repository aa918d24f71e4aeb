import { describe, expect, test } from "vitest";
import { fieldNamed } from "../../src/cases/dictionary.ts";
import type { CellValue } from "../../src/cases/table.ts";
import type { ColumnContext, ColumnReading } from "../../src/cases/values/column-reading.ts";
import { readColumn } from "../../src/cases/values/read-column.ts";
import { WrittenColumn } from "../../src/cases/written-column.ts";

function read(
  field: string,
  written: readonly string[],
  context: Partial<ColumnContext> = {},
): ColumnReading {
  return readColumn(WrittenColumn.of(written), fieldNamed(field)!, {
    heading: field,
    delimiter: ",",
    ...context,
  });
}

function codes({ faults }: ColumnReading): string[] {
  return faults.map(({ fault }) => fault.code);
}

describe("numbers", () => {
  test.each([
    ["symptom_days", "12", 12],
    ["symptom_days", "12 d", 12],
    ["symptom_days", "12days", 12],
    ["symptom_days", "2 weeks", 14],
    ["symptom_days", "3/7", 3],
    ["symptom_days", "2/52", 14],
    ["axial_length", "24.1 mm", 24.1],
    ["axial_length", "2.41 cm", 24.1],
    ["refraction", "-4.50", -4.5],
    ["refraction", "\u22124.50 D", -4.5],
    ["gas_percent", "14%", 14],
    ["age", "65 yrs", 65],
    ["quadrants_detached", "2 quadrants", 2],
    ["operations_total", "1", 1],
  ])("%s %s", (field, written, number) => {
    const reading = read(field, [written]);
    expect(reading.values[0]).toBeCloseTo(number, 12);
    expect(codes(reading)).toEqual([]);
  });

  test.each([
    ["symptom_days", "12 mm", "not-a-number"],
    ["symptom_days", "<7", "not-a-number"],
    ["symptom_days", "5-7", "not-a-number"],
    ["age", "116", "out-of-range"],
    ["age", "-1", "out-of-range"],
    ["axial_length", "14.9", "out-of-range"],
    ["break_count", "1.5", "not-whole"],
    ["operation_number", "0", "out-of-range"],
    ["age", "Infinity", "not-a-number"],
    ["age", "0x10", "not-a-number"],
  ])("%s %s is %s", (field, written, code) => {
    const reading = read(field, [written]);
    expect(reading.values).toEqual([null]);
    expect(codes(reading)).toEqual([code]);
  });

  test("both ends of a range belong to it", () => {
    expect(read("age", ["0", "115"]).values).toEqual([0, 115]);
  });

  test("a decimal comma by the delimiter, or by the column", () => {
    expect(read("axial_length", ["24,125"], { delimiter: ";" }).values).toEqual([24.125]);
    expect(read("axial_length", ["24,5", "23,125"]).values).toEqual([24.5, 23.125]);
    expect(read("axial_length", ["24,125"]).values).toEqual([null]);
    expect(read("symptom_days", ["1,234"]).values).toEqual([1234]);
  });

  test("missing is never zero", () => {
    expect(read("age", ["", "-", "n/a", "NA", "not recorded", "?"]).values).toEqual(
      Array(6).fill(null),
    );
  });
});

describe("yes and no", () => {
  test("in the usual spellings", () => {
    const written = ["Y", "no", "TRUE", "0", "1", "N", "", "Yes", "absent"];
    const expected = [true, false, true, false, true, false, null, true, false];
    expect(read("trauma", written).values).toEqual(expected);
  });

  test("anything else is asked", () => {
    const reading = read("trauma", ["maybe", "2"]);
    expect(reading.values).toEqual([null, null]);
    expect(codes(reading)).toEqual(["not-yes-or-no", "not-yes-or-no"]);
  });

  test("by the notebook's own spelling", () => {
    const codes = new Map([["blunt", "yes"]]);
    expect(read("trauma", ["blunt"], { codes }).values).toEqual([true]);
  });
});

describe("codes", () => {
  test.each([
    ["eye", "OD", "right"],
    ["eye", "le", "left"],
    ["technique", "PPV + SB", "vitrectomy with buckle"],
    ["technique", "Scleral_Buckling", "scleral buckle"],
    ["technique", "ROSO", "oil removal"],
    ["tamponade", "C3F8", "C3F8"],
    ["tamponade", "oil", "silicone oil"],
    ["smoker", "ex-smoker", "former"],
    ["surgeon_grade", "Resident", "trainee"],
    ["status_last_seen", "flat", "attached"],
    ["status_last_seen", "unknown", "unknown"],
    ["status_last_seen", "?", "unknown"],
    ["status_last_seen", "", null],
    ["macula", "Mac-off", "off"],
    ["macula", "unknown", null],
    ["pvd", "Y", "present"],
  ])("%s %s is %s", (field, written, code) => {
    const reading = read(field, [written]);
    expect(reading.values).toEqual([code]);
    expect(codes(reading)).toEqual([]);
  });

  test("an unknown one is missing and asked, with the nearest", () => {
    const reading = read("technique", ["vitrectmy"]);
    expect(reading.values).toEqual([null]);
    expect(reading.faults[0]?.fault).toMatchObject({
      code: "code-unknown",
      remedy: 'did you mean "vitrectomy"?',
    });
  });

  test("the notebook's own names are remembered, in any case", () => {
    const codes = new Map([
      ["Op 3", "vitrectomy"],
      ["odd", "no such code"],
    ]);
    expect(read("technique", ["Op 3", "op 3", "odd"], { codes }).values).toEqual([
      "vitrectomy",
      "vitrectomy",
      null,
    ]);
  });

  test("an object's own words are no codes", () => {
    const written = ["__proto__", "constructor", "toString", "hasOwnProperty"];
    expect(read("technique", written).values).toEqual([null, null, null, null]);
    expect(codes(read("technique", written))).toHaveLength(4);
  });

  test("lists are set apart by semicolons, by other signs where each part is known", () => {
    const written = ["HST; RH", "HST + RH", "horseshoe tear;HST", "", "none found", "HST;what"];
    const expected: CellValue[] = [
      ["horseshoe tear", "round hole"],
      ["horseshoe tear", "round hole"],
      ["horseshoe tear"],
      null,
      ["none found"],
      null,
    ];
    expect(read("break_type", written).values).toEqual(expected);
    expect(codes(read("break_type", written))).toEqual(["code-unknown"]);
  });

  test("none is a list of none where there is no code for it, and not missing", () => {
    expect(read("buckle_element", ["none", ""]).values).toEqual([[], null]);
    expect(read("complication", ["none"]).values).toEqual([["none"]]);
  });

  test.each([
    ["10:30", ["10", "11"]],
    ["12:30; 4", ["12", "1", "4"]],
    ["0.5", ["12", "1"]],
    ["1.5", ["1", "2"]],
    ["7.30", ["7", "8"]],
    ["10:10 and 2:50", ["10", "3"]],
    ["12:45", ["1"]],
    ["10:60", null],
    ["13:30", null],
    ["1.25", null],
  ])("half clock hours are under both hours they lie between: %s", (written, hours) => {
    const reading = read("break_clock_hours", [written]);
    expect(reading.values).toEqual([hours]);
    const said = [...codes(reading), ...reading.remarks.map(({ code }) => code)];
    expect(said).toContain(hours === null ? "code-unknown" : "clock-hours-between");
  });

  test.each([
    ["1;2", ["1", "2"]],
    ["1,1", ["1"]],
    ["1 2", ["1", "2"]],
    ["1/2 and 11", ["1", "2", "11"]],
  ])("hours side by side are not run together: %s", (written, hours) => {
    expect(read("break_clock_hours", [written])).toMatchObject({ values: [hours], faults: [] });
  });

  test("a time that the notebook has an hour for is that hour", () => {
    const told = new Map([["10:30", "10"]]);
    const reading = read("break_clock_hours", ["10:30"], { codes: told });
    expect(reading).toMatchObject({ values: [["10"]], remarks: [] });
  });

  test("clock hours", () => {
    expect(read("break_clock_hours", ["11;12", "1 o'clock", "13"]).values).toEqual([
      ["11", "12"],
      ["1"],
      null,
    ]);
  });
});

/** 1983: Ophthalmology 90:121. 1991: Machemer and others, Am J Ophthalmol 112:159. */
describe("PVR grades", () => {
  test.each([
    ["none", "none", null, null, null],
    ["A", "A", null, null, null],
    ["grade B", "B", null, null, null],
    ["C", "C", null, null, null],
    ["CP3", "C", "1991", 3, "posterior"],
    ["CP 4", "C", "1991", 4, "posterior"],
    ["C3 P", "C", "1991", 3, "posterior"],
    ["CA2", "C", "1991", 2, "anterior"],
    ["CA2 CP4", "C", "1991", 4, "both"],
    ["CP12", "C", "1991", 12, "posterior"],
    ["C5", "C", "1991", 5, null],
    ["PVR C2", "C", "1983", null, null],
    ["D1", "C", "1983", null, null],
  ])("%s", (written, grade, system, clockHours, zone) => {
    const reading = read("pvr_grade", [written]);
    expect(reading.values).toEqual([grade]);
    const made = (name: string) => reading.companions?.get(name)?.[0];
    expect(made("pvr_system")).toBe(system);
    expect(made("pvr_clock_hours")).toBe(clockHours);
    expect(made("pvr_zone")).toBe(zone);
    expect(made("pvr_grade_written")).toBe(written);
  });

  test.each(["CP0", "CP13", "D4", "E", "CP3 CP4", "C13", "mild"])("%s is none", (written) => {
    const reading = read("pvr_grade", [written]);
    expect(reading.values).toEqual([null]);
    expect(codes(reading)).toEqual(["not-a-pvr-grade"]);
  });

  test("? is missing", () => {
    expect(codes(read("pvr_grade", ["?", "unknown"]))).toEqual([]);
    expect(read("pvr_grade", ["?"]).values).toEqual([null]);
  });
});
