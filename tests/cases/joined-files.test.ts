import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { generateDemo } from "../../data-demo/generate.ts";
import { dayFromParts } from "../../src/cases/calendar-day.ts";
import type { CaseReading } from "../../src/cases/case-reading.ts";
import type { FurtherFileKind } from "../../src/cases/joining/join-report.ts";
import { readCaseFiles } from "../../src/cases/joining/read-case-files.ts";
import type { ReadCasesOptions } from "../../src/cases/reading-options.ts";
import { rowCount } from "../../src/cases/table.ts";
import { codesOf, readText, valuesOf } from "./read-text.ts";

const bytesOf = (text: string) => new TextEncoder().encode(text);

function joined(
  first: string,
  second: string,
  {
    as = "operations" as FurtherFileKind,
    ...options
  }: ReadCasesOptions & { as?: FurtherFileKind } = {},
): CaseReading {
  const further = { name: "second.csv", bytes: bytesOf(second), as };
  return readCaseFiles({ name: "first.csv", bytes: bytesOf(first) }, [further], options);
}

const headings = "case,patient,eye,operation_date,technique,last_seen_date,status_last_seen";
const first = `${headings}
1,A,R,2024-01-03,SB,2024-03-01,attached
2,B,L,2024-02-03,PPV,2024-03-01,attached
3,C,R,2024-02-10,PPV,,
`;

describe("a later export", () => {
  test("adds what is new, in whatever order and spelling its columns come", () => {
    const second = `Laterality;Date of surgery;patient id;case;Procedure;note
OS;01.04.2024;D;4;vitrectomy;new
OD;13.04.2024;A;5;oil removal;
`;
    const reading = joined(first, second);
    expect(reading.problems).toEqual([]);
    expect(valuesOf(reading, "case")).toEqual(["1", "2", "3", "4", "5"]);
    expect(valuesOf(reading, "eye")).toEqual(["right", "left", "right", "left", "right"]);
    expect(valuesOf(reading, "patient")).toEqual(["P001", "P002", "P003", "P004", "P001"]);
    expect(valuesOf(reading, "operation_number")).toEqual([1, 1, 1, 1, 2]);
    expect(valuesOf(reading, "note")).toEqual([null, null, null, "new", null]);
    expect(reading).toMatchObject({ rowsRead: 5, lines: [2, 3, 4, 2, 3], fileOf: [0, 0, 0, 1, 1] });
    expect(reading.files?.map(({ name, delimiter }) => [name, delimiter])).toEqual([
      ["first.csv", ","],
      ["second.csv", ";"],
    ]);
    expect(reading.joins?.[0]).toMatchObject({
      as: "operations",
      rowsRead: 2,
      added: [2, 3],
      changed: [],
      same: [],
      missing: [2, 3, 4].map((line) => ({ file: "first.csv", line })),
    });
  });

  test("that has all again says what it changed, and nothing is there twice", () => {
    const second = `${headings}
1,A,R,2024-01-03,SB,2024-09-01,attached
2,B,L,2024-02-03,PPV,2024-03-01,attached
3,C,R,2024-02-10,PPV,2024-09-02,detached
4,D,R,2024-07-10,PPV,,
`;
    const reading = joined(first, second);
    expect(rowCount(reading.cases)).toBe(4);
    expect(valuesOf(reading, "status_last_seen")).toEqual([
      "attached",
      "attached",
      "detached",
      null,
    ]);
    const { added, changed, same, missing } = reading.joins![0]!;
    expect([added, same, missing]).toEqual([[5], [3], []]);
    const place = { file: "first.csv", line: 2 };
    const [from, to] = [dayFromParts(2024, 3, 1), dayFromParts(2024, 9, 1)];
    expect(changed[0]).toEqual({ place, line: 2, field: "last_seen_date", from, to });
    expect(changed.slice(1).map(({ line, field, from }) => [line, field, from])).toEqual([
      [4, "last_seen_date", null],
      [4, "status_last_seen", null],
    ]);
  });

  test("keeps a value that it lacks itself, and says so", () => {
    const second = `${headings}\n1,A,R,2024-01-03,SB,,attached\n`;
    const reading = joined(first, second);
    expect(codesOf(reading)).toEqual(["value-gone"]);
    expect(reading.problems[0]?.place).toEqual({
      file: "second.csv",
      line: 2,
      field: "last_seen_date",
    });
    expect(valuesOf(reading, "last_seen_date")?.[0]).toBe(dayFromParts(2024, 3, 1));
    expect(reading.joins?.[0]?.same).toEqual([2]);
  });

  test("whose ids begin again has other operations under them", () => {
    const second = `${headings}\n1,X,R,2024-04-03,SB,,\n2,Y,L,2024-04-04,SB,,\n`;
    const reading = joined(first, second);
    expect(rowCount(reading.cases)).toBe(5);
    expect(codesOf(reading)).toEqual(["case-twice", "case-twice"]);
    expect(valuesOf(reading, "case")?.slice(3)).toEqual(["1 (2)", "2 (2)"]);
  });

  test("knows an operation by patient, eye and day where ids differ or are absent", () => {
    const renumbered = `${headings}\n91,B,L,2024-02-03,PPV,2024-08-01,attached\n`;
    const reading = joined(first, renumbered);
    expect(rowCount(reading.cases)).toBe(3);
    expect(valuesOf(reading, "case")).toEqual(["1", "2", "3"]);
    const without = "patient,eye,operation_date,technique\nB,L,2024-02-03,PPV\n";
    expect(joined(without, without).joins?.[0]).toMatchObject({ same: [2], added: [] });
  });

  test("one corrected fact is the same operation, and a query", () => {
    const second = `${headings}\n1,A,L,2024-01-03,SB,2024-03-01,attached\n`;
    const reading = joined(first, second);
    expect(codesOf(reading)).toEqual(["operation-changed"]);
    expect(valuesOf(reading, "eye")?.[0]).toBe("left");
  });

  test("is checked with what came before: the whole is seen", () => {
    const second = "case,patient,eye,operation_date,operation_number\n9,A,R,2024-05-03,2\n";
    expect(codesOf(readText(second))).toEqual(["later-operation-without-first"]);
    expect(joined(`${second.split("\n")[0]}\n1,A,R,2024-01-03,1\n`, second).problems).toEqual([]);
  });

  test("a column of the department's own has one kind in both", () => {
    const reading = joined("case,score\n1,5\n2,6\n", "case,score\n3,n7\n4,8\n");
    expect(valuesOf(reading, "score")).toEqual(["5", "6", "n7", "8"]);
  });

  test("that cannot be read leaves the first as it is, and is said", () => {
    const reading = joined(first, "");
    expect(codesOf(reading)).toEqual(["file-empty"]);
    expect(reading.cases.columns).toEqual(readText(first).cases.columns);
    expect(reading.joins).toEqual([]);
  });

  test("that cannot be read hides no row that a check left out, and has a name of its own", () => {
    const stopped = "case,operation_date,last_seen_date\n1,2024-05-01,2024-04-01\n2,2024-05-01,\n";
    const file = { name: "cases.csv", bytes: bytesOf(stopped) };
    const further = { name: "cases.csv", bytes: bytesOf("case,age"), as: "follow-up" as const };
    const reading = readCaseFiles(file, [further]);
    expect(reading.leftOut).toMatchObject([{ file: "cases.csv", line: 2 }]);
    expect(reading.problems.at(-1)).toMatchObject({
      code: "no-rows",
      place: { file: "cases.csv (2)" },
    });
  });

  test("corrections find their row in whichever file has it, also when it comes again", () => {
    const why = "record";
    const row = { by: "case", case: "2" } as const;
    const correction = {
      row,
      field: "technique",
      from: "PPV",
      to: "SB",
      why,
      correctedDay: 20_000,
    };
    const reading = joined(first, first, { corrections: [correction] });
    expect(valuesOf(reading, "technique")).toEqual([
      "scleral buckle",
      "scleral buckle",
      "vitrectomy",
    ]);
    expect(reading.joins?.[0]?.same).toEqual([2, 3, 4]);
    expect(reading.corrections?.applied).toEqual([correction]);
  });
});

describe("a file of follow-up", () => {
  const followUp = (second: string, operations = first) =>
    joined(operations, second, { as: "follow-up" });

  test("moves the last visit forward, by case or by patient and eye", () => {
    for (const second of [
      "case,last_seen_date,status_last_seen\n3,2024-09-01,attached\n1,2024-10-01,detached\n",
      "patient,eye,last visit,status_last_seen\nC,R,2024-09-01,attached\nA,R,2024-10-01,detached\n",
    ]) {
      const reading = followUp(second);
      expect(valuesOf(reading, "status_last_seen")).toEqual(["detached", "attached", "attached"]);
      expect(valuesOf(reading, "technique")).toEqual(valuesOf(readText(first), "technique"));
      expect(reading).toMatchObject({ rowsRead: 3, leftOut: [] });
      const { added, changed, missing } = reading.joins![0]!;
      expect([added, missing]).toEqual([[], [{ file: "first.csv", line: 3 }]]);
      expect(changed.map(({ line, field }) => `${line} ${field}`)).toEqual([
        "2 last_seen_date",
        "2 status_last_seen",
        "3 last_seen_date",
        "3 status_last_seen",
      ]);
    }
  });

  test("with a row a visit ends with the last, whatever their order", () => {
    const second = `case,last_seen_date,status_last_seen,redetachment_date
3,2024-09-01,attached,
3,2024-05-01,under observation,
3,2024-07-01,detached,2024-07-01
`;
    const reading = followUp(second);
    expect(valuesOf(reading, "last_seen_date")?.[2]).toBe(dayFromParts(2024, 9, 1));
    expect(valuesOf(reading, "status_last_seen")?.[2]).toBe("attached");
    expect(valuesOf(reading, "redetachment_date")?.[2]).toBe(dayFromParts(2024, 7, 1));
  });

  test("an earlier visit than is known changes nothing but what was missing", () => {
    const second = "case,last_seen_date,status_last_seen,complication\n1,2024-02-01,detached,ERM\n";
    const reading = followUp(second);
    expect(valuesOf(reading, "status_last_seen")?.[0]).toBe("attached");
    expect(valuesOf(reading, "complication")?.[0]).toEqual(["epiretinal membrane"]);
  });

  test("does not rewrite the operation: what differs is a query", () => {
    const reading = followUp("case,technique,last_seen_date\n1,PPV,2024-09-01\n");
    expect(codesOf(reading)).toEqual(["follow-up-differs"]);
    expect(valuesOf(reading, "technique")?.[0]).toBe("scleral buckle");
  });

  const twice = "patient,eye,operation_date\nA,R,2024-01-01\nA,R,2024-05-01\n";

  test.each([
    ["after the second", "A,R,,,2024-09-01", [null, dayFromParts(2024, 9, 1)]],
    ["between them", "A,R,,,2024-03-01", [dayFromParts(2024, 3, 1), null]],
    ["with the day of operation", "A,R,2024-01-01,,2024-09-01", [dayFromParts(2024, 9, 1), null]],
  ])("of an eye with two operations goes to the one it follows: %s", (_, row, expected) => {
    const second = `patient,eye,operation_date,redetachment_date,last_seen_date\n${row}\n`;
    const reading = followUp(second, twice);
    expect(valuesOf(reading, "last_seen_date")).toEqual(expected);
  });

  test.each([
    ["no such eye", "A,L,,,2024-09-01", "follow-up-without-operation"],
    ["no such day", "A,R,2024-02-01,,2024-09-01", "follow-up-without-operation"],
    ["of both operations", "A,R,,2024-04-01,2024-09-01", "follow-up-undecided"],
  ])("a row that belongs to no operation is left out: %s", (_, row, code) => {
    const second = `patient,eye,operation_date,redetachment_date,last_seen_date\n${row}\n`;
    const reading = followUp(second, twice);
    expect(codesOf(reading)).toEqual([code]);
    expect(reading.leftOut).toMatchObject([{ file: "second.csv", line: 2, code }]);
    expect(reading.rowsRead).toBe(rowCount(reading.cases) + 1);
  });
});

describe("no row is lost", () => {
  const { csv } = generateDemo(11, { faults: false, eyes: 60 });
  const [head, ...rows] = csv.trim().split("\n");
  const rowsOf = (chosen: readonly boolean[]) =>
    [head, ...rows.filter((_, i) => chosen[i % chosen.length])].join("\n");
  const some = fc.array(fc.boolean(), { minLength: 7, maxLength: 40 });

  test("however two exports of one unit overlap, they are the unit again", () => {
    const property = fc.property(some, some, (one, two) => {
      if (!one.includes(true) || !two.includes(true)) return;
      const [a, b] = [rowsOf(one), rowsOf(two)];
      const reading = joined(a, b);
      const join = reading.joins![0]!;
      const both = new Set([...a.split("\n"), ...b.split("\n")]).size - 1;
      expect(reading.rowsRead).toBe(both);
      expect(join.added.length + join.same.length).toBe(join.rowsRead);
      expect(join.changed).toEqual([]);
      const cases = valuesOf(reading, "case");
      expect(new Set(cases).size).toBe(cases?.length);
    });
    fc.assert(property, { seed: 8, numRuns: 60 });
  });

  test("each row of any second file is added, changed, the same or left out", () => {
    const cell = fc.constantFrom("", "A", "B", "R", "L", "2024-01-03", "2024-05-01", "1", "2", "x");
    const row = fc.array(cell, { minLength: 7, maxLength: 7 });
    const kind = fc.constantFrom("operations" as const, "follow-up" as const);
    const property = fc.property(
      fc.array(row, { minLength: 1, maxLength: 6 }),
      kind,
      (cells, as) => {
        const reading = joined(first, [headings, ...cells].join("\n"), { as });
        const [join] = reading.joins ?? [];
        if (join === undefined) return;
        const changed = new Set(join.changed.map(({ line }) => line));
        const said = [...join.added, ...join.same, ...changed];
        const out = reading.leftOut.filter(
          ({ file, line }) => file === "second.csv" && !said.includes(line),
        );
        expect(new Set(said).size).toBe(said.length);
        expect(said.length + out.length).toBe(join.rowsRead);
        expect(rowCount(reading.cases) + reading.leftOut.length).toBe(reading.rowsRead);
        expect(reading.fileOf).toHaveLength(rowCount(reading.cases));
      },
    );
    fc.assert(property, { seed: 9, numRuns: 400 });
  });
});
