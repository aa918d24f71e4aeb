import { describe, expect, test } from "vitest";
import { codesOf, readText, valuesOf } from "./read-text.ts";

/** Every text that a reading can show. */
function everything(reading: ReturnType<typeof readText>): string {
  const { columns, problems, leftOut, matching, cases } = reading;
  const values = cases.columns.map((column) => column.values);
  return JSON.stringify([columns, problems, leftOut, [...matching.columns], values]);
}

describe("columns that tell who a person is", () => {
  // Numbers with their check digit made up here: 943 476 5919 is the health service's own example.
  test.each([
    ["by heading: name", "Patient Name", ["Ada Vane", "Bo Finch"]],
    ["by heading: surname", "SURNAME", ["Vane", "Finch"]],
    ["by heading: postcode", "post code", ["x1", "x2"]],
    ["by heading: health-service number", "NHS No.", ["1", "2"]],
    ["e-mail", "contact", ["ada@vane.example", "bo@finch.example"]],
    ["postcode", "where", ["ZZ99 3WZ", "ZZ9 4LR"]],
    ["telephone", "reach", ["+44 20 7946 0000", "01632 960001"]],
    ["health-service number", "ref", ["943 476 5919", "4505577104", "9876543210"]],
    ["names, family name first", "who", ["Vane, Ada", "Finch, Bo"]],
    ["names with titles", "who", ["Mrs A Vane", "Mr B Finch"]],
    [
      "pairs of capitalised words",
      "who",
      ["Ada Vane", "Bo Finch", "Cy Marsh", "Di Salt", "Ed Reed"],
    ],
  ])("%s: dropped, never shown", (_, heading, values) => {
    const rows = values.map((value, i) => `${i},R,"${value}"`);
    const reading = readText(`case,eye,${heading}\n${rows.join("\n")}\n`);
    expect(codesOf(reading)).toContain("private-column");
    expect(reading.columns[2]).toEqual({
      heading,
      position: 2,
      by: "dropped",
      sample: [],
      missing: 0,
    });
    expect(reading.matching.columns.get(heading)).toEqual({ leave: true });
    for (const value of values.filter((text) => text.length > 2)) {
      expect(everything(reading)).not.toContain(value);
    }
  });

  test.each([
    ["techniques", ["Scleral Buckle", "Scleral Buckle", "Pars Plana"]],
    ["numbers of ten digits without the check digit", ["1234567890", "1234567891", "1234567892"]],
    ["dates", ["2024-01-01", "2024-02-01", "2024-03-01"]],
    ["codes", ["S1", "S2", "S3"]],
  ])("%s are kept", (_, values) => {
    const rows = values.map((value, i) => `${i},${value}`);
    expect(readText(`case,own\n${rows.join("\n")}\n`).columns[1]?.by).toBe("unmatched");
  });

  test("an identifier matched to patient becomes a pseudonym everywhere", () => {
    const matching = {
      columns: new Map([["NHS number", { field: "patient" }]]),
      values: new Map<string, ReadonlyMap<string, string>>(),
    };
    const text = `NHS number,eye,operation_date\n943 476 5919,R,2024-01-01\n450 557 7104,R,2024-01-01\n943 476 5919,R,2024-01-01\n`;
    const reading = readText(text, { matching });
    expect(valuesOf(reading, "patient")).toEqual(["P001", "P002"]);
    expect(reading.columns[0]?.sample).toEqual(["P001", "P002"]);
    expect(everything(reading)).not.toMatch(/943|450 557/);
    const keyed = readText(text, { matching, pseudonym: (patient) => `x${patient.length}` });
    expect(valuesOf(keyed, "patient")?.[0]).toBe("x10");
  });

  test("age at the operation comes from the date of birth, which is dropped", () => {
    const text = `case,operation_date,DOB\n1,2024-03-01,29/02/1960\n2,2024-02-28,29/02/1960\n3,2024-03-01,13/05/48\n4,2024-03-01,no\n5,,29/02/1960\n`;
    const reading = readText(text);
    expect(valuesOf(reading, "age")).toEqual([64, 63, 75, null, null]);
    expect(codesOf(reading)).toEqual(["private-column", "age-from-birth", "birth-unread"]);
    expect(everything(reading)).not.toMatch(/1960|1948|13\/05/);
  });

  test("days long before the operation are dates of birth whatever their heading", () => {
    const text = "case,operation_date,first\n1,2024-03-01,1960-02-03\n2,2024-03-01,1971-05-06\n";
    const reading = readText(text);
    expect(reading.columns[2]?.by).toBe("dropped");
    expect(valuesOf(reading, "age")).toEqual([64, 52]);
  });

  test("a row whose values have moved shows none of them", () => {
    const text = "eye,name,case,age\nR,Vane, Ada,1,50\nL,Finch,2,60\n";
    const reading = readText(text);
    expect(codesOf(reading)).toContain("row-long");
    expect(everything(reading)).not.toContain("Ada");
  });

  test("nor keeps them where any text would be", () => {
    const long = readText("eye,name,notes,seen\nR,Vane, Ada,well,well\nL,Finch,ill,ill\n");
    expect(valuesOf(long, "notes")).toEqual([null, "ill"]);
    expect(everything(long)).not.toContain("Ada");
    const short = readText("case,notes,name,age\n1,Vane,50\n2,ill,Finch,60\n");
    expect(valuesOf(short, "notes")).toEqual([null, "ill"]);
    expect(everything(short)).not.toContain("Vane");
  });
});
