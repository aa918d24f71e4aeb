import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dayFromParts } from "../../src/cases/calendar-day.ts";
import type { CorrectedRow, Correction } from "../../src/cases/corrections/correction.ts";
import { readCorrections } from "../../src/cases/corrections/read-corrections.ts";
import { writeCorrections } from "../../src/cases/corrections/write-corrections.ts";
import { writtenRow } from "../../src/cases/corrections/written-row.ts";
import type { ReadCasesOptions } from "../../src/cases/reading-options.ts";
import { codesOf, readText, valuesOf } from "./read-text.ts";

const correctedDay = dayFromParts(2025, 3, 31)!;
const byCase = (id: string): CorrectedRow => ({ by: "case", case: id });

function correct(row: CorrectedRow, field: string, from: string, to: string): Correction {
  return { row, field, from, to, why: "as in the record", correctedDay };
}

const text = `case,patient,eye,operation_date,age,technique,score
a,77,R,13/01/2024,203,band,n12
b,78,L,14/01/2024,60,PPV,13
c,77,R,15/02/2024,61,SB,14
`;

function read(corrections: readonly Correction[], options: ReadCasesOptions = {}) {
  return readText(text, { ...options, corrections });
}

describe("corrections laid over a file", () => {
  test("mend what was wrong, and leave the rest", () => {
    const plain = readText(text);
    expect(codesOf(plain)).toEqual(["out-of-range", "code-unknown"]);
    const list = [
      correct(byCase("a"), "age", "203", "63"),
      correct(byCase("a"), "technique", "band", "scleral buckle"),
      correct(byCase("b"), "operation_date", "14/01/2024", "2024-01-16"),
    ];
    const reading = read(list);
    expect(reading.problems).toEqual([]);
    expect(reading.corrections).toEqual({ applied: list, notFitting: [] });
    expect(valuesOf(reading, "age")).toEqual([63, 60, 61]);
    expect(valuesOf(reading, "technique")?.[0]).toBe("scleral buckle");
    expect(valuesOf(reading, "operation_date")?.[1]).toBe(dayFromParts(2024, 1, 16));
    expect(valuesOf(reading, "score")).toEqual(valuesOf(plain, "score"));
    expect(plain.corrections).toBeUndefined();
  });

  test("are laid in their order: the next one is for what the last one left", () => {
    const first = correct(byCase("b"), "age", "60", "66");
    const second = correct(byCase("b"), "age", "66", "67");
    expect(valuesOf(read([first, second]), "age")?.[1]).toBe(67);
    const reversed = read([second, first]);
    expect(reversed.corrections).toEqual({ applied: [first], notFitting: [second] });
    expect(valuesOf(reversed, "age")?.[1]).toBe(66);
  });

  test("are checked like the file: a wrong one is a query, and can stop a row", () => {
    const reading = read([correct(byCase("c"), "operation_date", "15/02/2024", "13/01/2024")]);
    expect(codesOf(reading)).toContain("same-operation-twice");
    expect(codesOf(read([correct(byCase("b"), "age", "60", "600")]))).toContain("out-of-range");
  });

  test("that empty a value make it missing", () => {
    expect(valuesOf(read([correct(byCase("b"), "age", "60", "")]), "age")?.[1]).toBeNull();
  });

  test.each([
    ["another value", correct(byCase("b"), "age", "61", "62"), "correction-value-differs"],
    ["no such row", correct(byCase("z"), "age", "60", "62"), "correction-row-gone"],
    ["no such column", correct(byCase("b"), "shoes", "", "1"), "correction-field-unknown"],
    [
      "what is made from others",
      correct(byCase("b"), "operation_number", "", "1"),
      "correction-field-unknown",
    ],
    [
      "another file's line",
      correct({ by: "line", file: "else.csv", line: 3 }, "age", "60", "62"),
      "correction-row-gone",
    ],
  ])("for %s are not applied, and said", (_, correction, code) => {
    const reading = read([correction]);
    expect(reading.corrections).toEqual({ applied: [], notFitting: [correction] });
    expect(codesOf(reading)).toContain(code);
    expect(reading.cases.columns).toEqual(readText(text).cases.columns);
  });

  test("that the file has made itself are only noted", () => {
    const correction = correct(byCase("b"), "age", "66", "60");
    const reading = read([correction]);
    expect(reading.corrections?.notFitting).toEqual([correction]);
    expect(codesOf(reading)).toContain("correction-not-needed");
  });

  test("find the row by patient, eye and day, or by line", () => {
    const operationDay = dayFromParts(2024, 1, 14)!;
    const operation = { by: "operation", patient: "P002", eye: "left", operationDay } as const;
    const line = { by: "line", file: "cases.csv", line: 3 } as const;
    for (const row of [operation, line]) {
      expect(valuesOf(read([correct(row, "age", "60", "66")]), "age")).toEqual([null, 66, 61]);
    }
  });

  test("can fill a field that the file has no column for", () => {
    const reading = read([correct(byCase("b"), "oil_removed_date", "", "2024-06-01")]);
    expect(valuesOf(reading, "oil_removed_date")).toEqual([null, dayFromParts(2024, 6, 1), null]);
    expect(reading.columns.map(({ heading }) => heading)).toHaveLength(7);
    expect(reading.matching.columns.has("oil_removed_date")).toBe(false);
  });

  test("settle the kind of a column of the department's own", () => {
    expect(valuesOf(readText(text), "score")).toEqual(["n12", "13", "14"]);
    const reading = read([correct(byCase("a"), "score", "n12", "12")]);
    expect(valuesOf(reading, "score")).toEqual([12, 13, 14]);
  });

  test("give a row to another patient by code, and leave the other codes as they are", () => {
    const reading = read([correct(byCase("a"), "patient", "P001", "P002")]);
    expect(valuesOf(reading, "patient")).toEqual(["P002", "P002", "P001"]);
    expect(valuesOf(reading, "operation_number")).toEqual([1, 1, 1]);
  });

  test("never show what stands in a row whose values may be private", () => {
    const long = "case,name,eye,age\n1,Vane,R,50,60\n2,Finch,L,60\n";
    const row = byCase("1");
    const reading = readText(long, { corrections: [correct(row, "age", "51", "52")] });
    const said = reading.problems.find(({ code }) => code === "correction-value-differs");
    expect(said).toMatchObject({ place: { line: 2 } });
    expect(said).not.toHaveProperty("found");
  });
});

describe("a row as text", () => {
  const file = { name: "cases.csv", bytes: new TextEncoder().encode(text) };

  test("is what the next correction starts from", () => {
    const corrections = [correct(byCase("b"), "age", "60", "66")];
    const row = writtenRow({ file, line: 3 }, { corrections })!;
    expect(row.row).toEqual(byCase("b"));
    expect([...row.values]).toEqual([
      ["case", "b"],
      ["patient", "P002"],
      ["eye", "L"],
      ["operation_date", "14/01/2024"],
      ["age", "66"],
      ["technique", "PPV"],
      ["score", "13"],
    ]);
    const next = correct(row.row, "age", row.values.get("age")!, "67");
    expect(read([...corrections, next]).corrections?.notFitting).toEqual([]);
    expect(writtenRow({ file, line: 9 })).toBeUndefined();
  });

  test("is called by what only it is called by", () => {
    const called = (csv: string) =>
      writtenRow({ file: { name: "f", bytes: new TextEncoder().encode(csv) }, line: 3 })?.row;
    const eyes = "patient,eye,operation_date\n1,R,2024-01-01\n1,L,2024-01-01\n";
    const operationDay = dayFromParts(2024, 1, 1)!;
    expect(called(eyes)).toEqual({ by: "operation", patient: "P001", eye: "left", operationDay });
    expect(called("eye,age\nR,50\nL,60\n")).toEqual({ by: "line", file: "f", line: 3 });
    expect(called("case,age\n1,50\n1,60\n")).toEqual({ by: "line", file: "f", line: 3 });
  });
});

describe("the file of corrections", () => {
  const written = fc.string({
    unit: fc.constantFrom(...'ab",;\n\r =\u00e9'.split("")),
    maxLength: 8,
  });
  const filled = written.map((value) => `${value}x`);
  const day = fc.integer({ min: 0, max: 40_000 });
  const row: fc.Arbitrary<CorrectedRow> = fc.oneof(
    fc.record({ by: fc.constant("case" as const), case: filled }),
    fc.record({
      by: fc.constant("operation" as const),
      patient: filled,
      eye: fc.constantFrom("right", "left"),
      operationDay: day,
    }),
    fc.record({
      by: fc.constant("line" as const),
      file: written,
      line: fc.integer({ min: 1, max: 9e6 }),
    }),
  );
  const correction: fc.Arbitrary<Correction> = fc.record({
    row,
    field: filled,
    from: written,
    to: written,
    why: written,
    correctedDay: day,
  });

  test("is read as it was written, and written as it was read", () => {
    const property = fc.property(fc.array(correction, { maxLength: 6 }), (list) => {
      const file = writeCorrections(list);
      expect(readCorrections(file)).toEqual({ corrections: list, problems: [] });
      expect(writeCorrections(readCorrections(file).corrections)).toBe(file);
    });
    fc.assert(property, { seed: 6, numRuns: 300 });
  });

  test("is plain", () => {
    const list = [correct(byCase("0038"), "age", "203", "63")];
    expect(writeCorrections(list)).toBe(
      "case,patient,eye,operation_date,file,line,field,from,to,why,corrected_on\r\n" +
        "0038,,,,,,age,203,63,as in the record,2025-03-31\r\n",
    );
  });

  test("reading anything never throws", () => {
    const property = fc.property(fc.string(), (any) => {
      expect(readCorrections(any).corrections).toEqual([]);
    });
    fc.assert(property, { seed: 7, numRuns: 300 });
    expect(readCorrections('"case').problems[0]?.code).toBe("corrections-unread");
  });
});
