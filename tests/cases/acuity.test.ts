import { describe, expect, test } from "vitest";
import {
  lettersFromLogMar,
  logMarFromLowVision,
  logMarFromSnellen,
  lowVisionTables,
} from "../../src/cases/acuity.ts";
import { fieldNamed } from "../../src/cases/dictionary.ts";
import type { ColumnContext } from "../../src/cases/values/column-reading.ts";
import { readColumn } from "../../src/cases/values/read-column.ts";
import { WrittenColumn } from "../../src/cases/written-column.ts";

function read(written: readonly string[], context: Partial<ColumnContext> = {}) {
  const field = fieldNamed("acuity_before")!;
  return readColumn(WrittenColumn.of(written), field, {
    heading: "acuity",
    delimiter: ",",
    ...context,
  });
}

const table = (name: string) => lowVisionTables.find((one) => one.name.startsWith(name))!;

/** logMAR is the logarithm of denominator over numerator; letters are 85 - 50 logMAR. */
describe("acuity", () => {
  test.each([
    ["6/5", -0.079181, 88.9591],
    ["6/6", 0, 85],
    ["20/20", 0, 85],
    ["6/7.5", 0.09691, 80.1545],
    ["6/9", 0.176091, 76.1954],
    ["20/30", 0.176091, 76.1954],
    ["6/12", 0.30103, 69.9485],
    ["20/63", 0.498311, 60.0845],
    ["6/18", 0.477121, 61.1439],
    ["6/36", 0.778151, 46.0924],
    ["6/60", 1, 35],
    ["3/60", 1.30103, 19.9485],
    ["20/800", 1.60206, 4.897],
    ["20/1000", 1.69897, 0.0515],
  ])("%s", (written, logMar, letters) => {
    const [value] = read([written]).values;
    expect(value).toBeCloseTo(logMar, 6);
    expect(lettersFromLogMar(value as number)).toBeCloseTo(letters, 4);
  });

  test("the mean of 20/20 and 20/200 is 20/63.2456 (Holladay, JCRS 2004;30:287)", () => {
    const mean = (logMarFromSnellen(20, 20) + logMarFromSnellen(20, 200)) / 2;
    expect(mean).toBeCloseTo(0.5, 12);
    expect(logMarFromSnellen(20, 63.2456)).toBeCloseTo(mean, 6);
  });

  test("a letter is 0.02 (Bach, visual acuity)", () => {
    const [line, two, one] = read(["6/9", "6/9-2", "20/40+1"]).values as number[];
    expect(two! - line!).toBeCloseTo(0.04, 12);
    expect(one).toBeCloseTo(0.30103 - 0.02, 6);
  });

  test.each([
    ["0.3 logMAR", 0.3],
    ["logMAR -0.1", -0.1],
    ["decimal 0.5", 0.30103],
    ["0.5 decimal", 0.30103],
    ["70 letters", 0.3],
    ["70L", 0.3],
    ["ETDRS 35", 1],
  ])("%s", (written, logMar) => {
    expect(read([written]).values[0]).toBeCloseTo(logMar, 6);
  });

  test("letters never go below 0", () => {
    expect(lettersFromLogMar(3)).toBe(0);
    expect(lettersFromLogMar(1.7)).toBe(0);
  });

  test.each([
    ["Bach", [1.9, 2.3, 2.7, 3.0]],
    ["Schulze-Bonsel", [1.853872, 2.30103, null, null]],
    ["Lange", [1.98, 2.28, null, null]],
    ["Holladay", [2, 3, null, null]],
  ])("low vision by %s", (name, expected) => {
    const { values } = read(["CF", "HM", "PL", "NPL"], { lowVision: table(name) });
    values.forEach((value, i) => {
      if (expected[i] === null) expect(value).toBeNull();
      else expect(value).toBeCloseTo(expected[i]!, 6);
    });
  });

  test("hand movements differ by 0.7 between two tables, 35 letters", () => {
    const [one, other] = [table("Holladay"), table("Bach")].map(
      (t) => logMarFromLowVision("HM", t)!,
    );
    expect((one! - other!) * 50).toBeCloseTo(35, 9);
  });

  test("counting fingers at 2 feet is 20/2000 (Holladay 2004)", () => {
    const lowVision = table("Holladay");
    expect(read(["CF 2 ft"], { lowVision }).values[0]).toBeCloseTo(2, 12);
    expect(read(["CF @ 1m"], { lowVision }).values[0]).toBeCloseTo(Math.log10(200 * 0.3048), 12);
    expect(read(["CF 2 ft"]).values).toEqual([1.9]);
  });

  test("low vision in its spellings", () => {
    const written = [
      "cf",
      "Counting Fingers",
      "HM",
      "hand movements",
      "LP",
      "PL",
      "NLP",
      "NPL",
      "HM 1m",
    ];
    expect(read(written).values).toEqual([1.9, 1.9, 2.3, 2.3, 2.7, 2.7, 3, 3, 2.3]);
  });

  test("what the table does not measure is missing, said once, and kept as written", () => {
    const reading = read(["PL", "PL"], { lowVision: table("Lange") });
    expect(reading.remarks.map(({ code }) => code)).toEqual(["acuity-not-measurable"]);
    expect(reading.companions?.get("acuity_before_written")).toEqual(["PL", "PL"]);
  });

  test.each([
    ["logMAR 20", "acuity-does-not-fit"],
    ["101 letters", "acuity-does-not-fit"],
    ["decimal 0", "acuity-does-not-fit"],
    ["06-Sep", "acuity-turned-into-date"],
    ["Jun-09", "acuity-turned-into-date"],
    ["2025-09-06", "acuity-turned-into-date"],
    ["good", "not-an-acuity"],
    ["6/0", "not-an-acuity"],
    ["6/9 -x", "not-an-acuity"],
  ])("%s is %s", (written, code) => {
    const reading = read([written]);
    expect(reading.values).toEqual([null]);
    expect(reading.faults.map(({ fault }) => fault.code)).toEqual([code]);
  });

  test("bare numbers are settled for the whole column", () => {
    expect(read(["70", "35", "2"]).values).toEqual([0.3, 1, 1.66]);
    expect(read(["-0.1", "0.3", "1"]).values).toEqual([-0.1, 0.3, 1]);
    expect(read(["0.5", "1"], { heading: "VA decimal" }).values).toEqual([-Math.log10(0.5), 0]);
    expect(read(["0.5"], { heading: "preop logMAR" }).values).toEqual([0.5]);
    const settled = { acuityNotation: "decimal" } as const;
    expect(read(["0.1"], { settled }).values).toEqual([1]);
  });

  test("where nothing settles them they are missing and asked", () => {
    const reading = read(["0.5", "1", "6/9"]);
    expect(reading.values.slice(0, 2)).toEqual([null, null]);
    expect(reading.values[2]).toBeCloseTo(0.176091, 6);
    expect(reading.remarks.map(({ code }) => code)).toEqual(["acuity-undecided"]);
  });
});
