import { describe, expect, test } from "vitest";
import { readCorrections } from "../../src/cases/corrections/read-corrections.ts";
import { writtenRow } from "../../src/cases/corrections/written-row.ts";
import { readCaseFiles } from "../../src/cases/joining/read-case-files.ts";
import type { Matching } from "../../src/cases/matching.ts";
import { isNameOfPerson } from "../../src/cases/pseudonyms/is-name-of-person.ts";
import { codesOf, readText, valuesOf } from "./read-text.ts";

describe("what is a name", () => {
  test.each([
    ...[
      "Mr Grey",
      "Miss A. Stone",
      "Dr.Hill",
      "prof. de Wit",
      "Dr Hill 2",
      "Anna Stone",
      "Grey, J",
    ],
    ...["J. Grey", "Grey", "GREY", "O'Hara", "M\u00fcller", "Lee", "J.Grey"],
  ])("%s is", (written) => expect(isNameOfPerson(written)).toBe(true));

  test.each([
    ...["S1", "S07", "AB", "JSM", "A.B.", "Surgeon 3", "7", "", "-", "unknown", "none", "n/a"],
    ...["consultant", "Registrar", "fellow", "self", "A"],
  ])("%s is not", (written) => expect(isNameOfPerson(written)).toBe(false));
});

const text = `case,surgeon,supervisor,operation_date
1,Mr Grey,,2024-01-01
2,Anna Stone,mr grey,2024-01-02
3,AB,Dr Hill,2024-01-03
4,Dr Hill,none,2024-01-04
`;

describe("names of those who operated", () => {
  test("stand as codes, in the order in which they appear, one for a person in both columns", () => {
    const reading = readText(text);
    expect(valuesOf(reading, "surgeon")).toEqual(["S1", "S2", "AB", "S3"]);
    expect(valuesOf(reading, "supervisor")).toEqual([null, "S1", "S3", "none"]);
    expect(reading.problems).toMatchObject([
      { code: "names-coded", severity: "note", place: { field: "surgeon" } },
      { code: "names-coded", severity: "note", place: { field: "supervisor" } },
    ]);
    const { cases, ...others } = reading;
    expect(JSON.stringify([others, cases.columns])).not.toMatch(/grey|stone|hill/i);
  });

  test("of one person the note is in the singular", () => {
    const { problems } = readText("case,surgeon,operation_date\n1,Mr Grey,2024-01-01\n");
    expect(problems[0]?.message).toBe(
      "this column holds the name of one person; a code (S1) stands in place of it.",
    );
  });

  test("are shown where the notebook says so, and that is kept", () => {
    const columns = new Map([["surgeon", { field: "surgeon", names: "shown" as const }]]);
    const matching: Matching = { columns, values: new Map() };
    const reading = readText(text, { matching });
    expect(valuesOf(reading, "surgeon")).toEqual(["Mr Grey", "Anna Stone", "AB", "Dr Hill"]);
    expect(valuesOf(reading, "supervisor")?.slice(1, 3)).toEqual(["S1", "S2"]);
    expect(reading.matching.columns.get("surgeon")).toEqual({ field: "surgeon", names: "shown" });
  });

  test("codes stay as they are, and none of them is given again", () => {
    const codes = readText("case,surgeon,operation_date\n1,S1,2024-01-01\n2,S2,2024-01-02\n");
    expect(valuesOf(codes, "surgeon")).toEqual(["S1", "S2"]);
    expect(codesOf(codes)).toEqual([]);
    const mixed = readText("case,surgeon,operation_date\n1,Grey,2024-01-01\n2,S1,2024-01-02\n");
    expect(valuesOf(mixed, "surgeon")).toEqual(["S2", "S1"]);
  });

  test("of several files: a later file changes no code", () => {
    const more = "case,surgeon,operation_date\n5,Dr Hill,2024-02-01\n6,Dr Marsh,2024-02-02\n";
    const [first, second] = [text, more].map((each, i) => ({
      name: `${i}.csv`,
      bytes: new TextEncoder().encode(each),
    }));
    const reading = readCaseFiles(first!, [{ ...second!, as: "operations" }]);
    expect(valuesOf(reading, "surgeon")).toEqual(["S1", "S2", "AB", "S3", "S3", "S4"]);
  });

  test("a correction is made to the code", () => {
    const file = { name: "cases.csv", bytes: new TextEncoder().encode(text) };
    const written = writtenRow({ file, line: 3 })!;
    expect(written.values.get("surgeon")).toBe("S2");
    const { corrections } = readCorrections(
      "case,patient,eye,operation_date,file,line,field,from,to,why,corrected_on\n" +
        "2,,,,,,surgeon,S2,S1,theatre book,2024-03-01\n",
    );
    const reading = readText(text, { corrections });
    expect(valuesOf(reading, "surgeon")?.[1]).toBe("S1");
    expect(reading.corrections?.applied).toHaveLength(1);
  });
});
