import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { CaseReading } from "../../src/cases/case-reading.ts";
import { dictionary } from "../../src/cases/dictionary.ts";
import { readCases } from "../../src/cases/read-cases.ts";
import { rowCount } from "../../src/cases/table.ts";
import { readText } from "./read-text.ts";

function expectWhole(reading: CaseReading): void {
  expect(rowCount(reading.cases) + reading.leftOut.length).toBe(reading.rowsRead);
  expect(reading.lines).toHaveLength(rowCount(reading.cases));
  const lines = [...reading.lines, ...reading.leftOut.map(({ line }) => line)];
  expect(new Set(lines).size).toBe(reading.rowsRead);
  const names = reading.cases.columns.map(({ name }) => name);
  expect(new Set(names).size).toBe(names.length);
  for (const name of names) expect(name).toMatch(/^[a-z][a-z0-9_]*$/);
  if (names.length === 0) {
    expect(reading.problems.some(({ severity }) => severity === "stop")).toBe(true);
  }
}

const headings = [
  ...dictionary.map(({ name }) => name),
  ...dictionary.flatMap(({ headings }) => headings.slice(0, 1)),
  ..."name dob id email constructor __proto__ toString score".split(" "),
  "",
];

const value = fc.oneof(
  fc.constantFrom(
    ..."R,L,PPV,SB,6/9,CF,HM,0.3,70,yes,no,?,-,2024-01-01,31/02/2024,03/04/24".split(","),
  ),
  fc.constantFrom(
    "CP3",
    "D1",
    "45000",
    "12 d",
    "24,5",
    '"',
    "a;b",
    "attached",
    "none",
    "__proto__",
  ),
  fc.string({ maxLength: 6 }),
  fc.integer({ min: -5, max: 400 }).map(String),
);

describe("reading never throws, and no row is lost", () => {
  test("of any bytes", () => {
    const bytes = fc.uint8Array({ maxLength: 200 });
    const property = fc.property(bytes, (file) => {
      expectWhole(readCases({ name: "any", bytes: file }));
    });
    fc.assert(property, { seed: 1, numRuns: 1500 });
  });

  test("of any text made of the signs that matter", () => {
    const sign = fc.constantFrom(...'ae1,;|\t"\n\r 0/-?'.split(""), "eye", "age", "case", "\u00e9");
    const property = fc.property(fc.string({ unit: sign, maxLength: 120 }), (text) => {
      expectWhole(readText(text));
    });
    fc.assert(property, { seed: 2, numRuns: 1500 });
  });

  test("of tables with the headings of the dictionary and any values beneath", () => {
    const table = fc
      .uniqueArray(fc.constantFrom(...headings), { minLength: 1, maxLength: 12 })
      .chain((head) =>
        fc.record({
          head: fc.constant(head),
          rows: fc.array(fc.array(value, { minLength: 1, maxLength: head.length + 1 }), {
            maxLength: 8,
          }),
          delimiter: fc.constantFrom(",", ";", "\t", "|"),
        }),
      );
    const property = fc.property(table, ({ head, rows, delimiter }) => {
      const text = [head, ...rows].map((row) => row.join(delimiter)).join("\n");
      const first = readText(text, { today: 20_000 });
      expectWhole(first);
      expectWhole(readText(text, { today: 20_000, matching: first.matching }));
    });
    fc.assert(property, { seed: 3, numRuns: 1000 });
  });

  test("of corrections of any kind: each is applied or said not to fit", () => {
    const text = "case,patient,eye,operation_date,age\n1,A,R,2024-01-03,55\n2,A,L,2024-02-03,\n";
    const row = fc.oneof(
      fc.record({ by: fc.constant("case" as const), case: fc.constantFrom("1", "2", "__proto__") }),
      fc.record({
        by: fc.constant("line" as const),
        file: fc.constant("cases.csv"),
        line: fc.integer({ min: 1, max: 5 }),
      }),
    );
    const correction = fc.record({
      row,
      field: fc.constantFrom("age", "patient", "eye", "lens", "constructor", "operation_date"),
      from: fc.constantFrom("", "55", "R", "P001", "2024-01-03"),
      to: value,
      why: fc.string(),
      correctedDay: fc.integer({ min: 0, max: 40_000 }),
    });
    const property = fc.property(fc.array(correction, { maxLength: 6 }), (corrections) => {
      const reading = readText(text, { corrections, today: 20_000 });
      expectWhole(reading);
      const { applied, notFitting } = reading.corrections!;
      expect(applied.length + notFitting.length).toBe(corrections.length);
      const said = reading.problems.filter(({ code }) => code.startsWith("correction-"));
      expect(said).toHaveLength(notFitting.length);
    });
    fc.assert(property, { seed: 5, numRuns: 400 });
  });

  test("of a good file with bytes changed, taken out and put in", () => {
    const good = new TextEncoder().encode(
      `case,patient,eye,operation_date,age,acuity_before,technique,"break_type",status_last_seen\n` +
        `1,A,R,2024-01-03,55,6/9,SB,"HST;RH",attached\n2,B,L,03/02/2024,60,CF,PPV,,detached\n`.repeat(
          4,
        ),
    );
    const change = fc.record({
      at: fc.nat(good.length - 1),
      byte: fc.integer({ min: 0, max: 255 }),
      how: fc.constantFrom("change", "take out", "put in"),
    });
    const property = fc.property(fc.array(change, { minLength: 1, maxLength: 8 }), (changes) => {
      const bytes = [...good];
      for (const { at, byte, how } of changes) {
        if (how === "change") bytes[at] = byte;
        else bytes.splice(at, how === "take out" ? 1 : 0, ...(how === "put in" ? [byte] : []));
      }
      expectWhole(readCases({ name: "mutated", bytes: Uint8Array.from(bytes) }));
    });
    fc.assert(property, { seed: 4, numRuns: 800 });
  });

  test("of 200,000 rows that are all one eye and all wrong", () => {
    const rows = Array.from({ length: 200_000 }, (_, i) => `${i},A,R,soon,${i % 3},perhaps`);
    const text = `case,patient,eye,last_seen_date,operation_number,trauma\n${rows.join("\n")}\n`;
    const reading = readText(text);
    expect(rowCount(reading.cases)).toBe(200_000);
    expect(reading.problems.length).toBeGreaterThan(400_000);
  });
});
