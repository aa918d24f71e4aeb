import { describe, expect, test } from "vitest";
import { everyText } from "./every-text.ts";
import { codesOf, readText, valuesOf } from "./read-text.ts";

describe("columns that tell who a person is", () => {
  // Numbers with their check digit made up here: 943 476 5919 is the health service's own example.
  test.each([
    ["by heading: name", "Patient Name", ["Ada Vane", "Bo Finch"]],
    ["by heading: surname", "SURNAME", ["Vane", "Finch"]],
    ["by heading: postcode", "post code", ["x1", "x2"]],
    ["by heading: health-service number", "NHS No.", ["1", "2"]],
    ["by heading: address", "Home Address 1", ["Vaneholm", "Finchbury"]],
    ["by heading: e-mail", "Patient e-mail", ["vane at example", "finch at example"]],
    ["by heading: telephone", "Tel (home)", ["0 twelve 34", "0 twelve 35"]],
    ["address", "where", ["12 High Street", "Flat 2, 14 North Rd"]],
    ["one number with its check digit", "ref", ["943 476 5919", ""]],
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
      expect(everyText(reading)).not.toContain(value);
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
    expect(everyText(reading)).not.toMatch(/943|450 557/);
    const keyed = readText(text, { matching, pseudonym: (patient) => `x${patient.length}` });
    expect(valuesOf(keyed, "patient")?.[0]).toBe("x10");
  });

  test("age at the operation comes from the date of birth, which is dropped", () => {
    const text = `case,operation_date,DOB\n1,2024-03-01,29/02/1960\n2,2024-02-28,29/02/1960\n3,2024-03-01,13/05/48\n4,2024-03-01,no\n5,,29/02/1960\n`;
    const reading = readText(text);
    expect(valuesOf(reading, "age")).toEqual([64, 63, 75, null, null]);
    const ofBirth = ["private-column", "age-from-birth", "birth-unread"];
    expect(codesOf(reading)).toEqual([...ofBirth, "eye-not-known"]);
    expect(everyText(reading)).not.toMatch(/1960|1948|13\/05/);
  });

  test("dates of birth that read both ways follow the other days of the file", () => {
    const born = "03/04/1950";
    const ageBy = (operated: string) =>
      valuesOf(readText(`case,operation_date,DOB\n1,${operated},${born}\n`), "age");
    expect(ageBy("15/03/2024")).toEqual([73]);
    expect(ageBy("03/15/2024")).toEqual([74]);
    expect(ageBy("2024-03-15")).toEqual([null]);
  });

  test("days long before the operation are dates of birth whatever their heading", () => {
    const text = "case,operation_date,first\n1,2024-03-01,1960-02-03\n2,2024-03-01,1971-05-06\n";
    const reading = readText(text);
    expect(reading.columns[2]?.by).toBe("dropped");
    expect(valuesOf(reading, "age")).toEqual([64, 52]);
  });

  test.each([
    ["day and month in either order", "03/04/1950|05/06/1971|07/08/1964"],
    ["years of two digits", "03/04/50|05/06/71|07/08/64"],
    ["months by name", "3 Apr 1950|5 Jun 1971|7 Aug 1964"],
    ["one of them unread", "1950-02-03|1971-05-06|1964-08-07|1958-01-01|1959-30-30"],
  ])("dates of birth by value: %s", (_, values) => {
    const rows = values.split("|").map((value, i) => `${i},2024-03-0${i + 1},${value}`);
    const reading = readText(["case,operation_date,first", ...rows].join("\n"));
    expect(reading.columns[2]?.by).toBe("dropped");
    for (const value of values.split("|")) expect(everyText(reading)).not.toContain(value);
  });

  test("dates of birth where no day of operation is known", () => {
    const born = ["1931-02-03", "1950-02-03", "1971-05-06", "1979-01-01", "1990-02-02"];
    const rows = born.map((day, i) => `${i},R,${day}`);
    expect(readText(["case,eye,first", ...rows].join("\n")).columns[2]?.by).toBe("dropped");
    const seen = readText("case,eye,first\n1,R,1999-02-03\n2,R,2024-05-06\n");
    expect(seen.columns[2]?.by).toBe("unmatched");
  });

  test("what the notebook keeps of a dropped column gives the age again next quarter", () => {
    const text = "case,operation_date,first\n1,2024-03-01,1960-02-03\n2,2024-03-01,1971-05-06\n";
    const { matching } = readText(text);
    expect(matching.columns.get("first")).toEqual({ leave: true });
    const next = readText(text, { matching });
    expect(valuesOf(next, "age")).toEqual([64, 52]);
    expect(everyText(next)).not.toMatch(/1960|1971/);
  });

  test.each([
    ["Surname", { name: "surname", kind: "text" as const }],
    ["Surname", { field: "case" }],
    ["Surname", { field: "technique" }],
    ["e-mail", { name: "mail", kind: "code" as const }],
    ["NHS number", { field: "case" }],
  ])("%s is dropped though the notebook matches it to %o", (heading, match) => {
    const matching = { columns: new Map([[heading, match]]), values: new Map() };
    const reading = readText(`${heading},eye,age\nVane,R,50\nFinch,L,60\n`, { matching });
    expect(reading.columns[0]?.by).toBe("dropped");
    expect(everyText(reading)).not.toMatch(/Vane|Finch/);
  });

  test("names of those who operated may be matched to the surgeon, where codes stand for them", () => {
    const matching = { columns: new Map([["Name", { field: "surgeon" }]]), values: new Map() };
    const reading = readText("Name,eye,age\nAda Vane,R,50\nBo Finch,L,60\n", { matching });
    expect(valuesOf(reading, "surgeon")).toEqual(["S1", "S2"]);
    expect(everyText(reading)).not.toMatch(/Vane|Finch/);
  });

  test("yes and no tell nobody, whatever the heading", () => {
    const reading = readText("case,GP,Email\n1,yes,Y\n2,no,N\n");
    expect(reading.columns.map(({ by }) => by)).toEqual(["name", "unmatched", "unmatched"]);
  });

  test("ids of rows are dropped where they are names or numbers of people", () => {
    const names = readText('case,eye\n"Vane, Ada",R\n"Finch, Bo",L\n');
    expect(names.columns[0]?.by).toBe("dropped");
    const numbers = readText("case,eye\n9434765919,R\n4505577104,L\n9876543210,L\n");
    expect(numbers.columns[0]?.by).toBe("dropped");
    expect(everyText(numbers)).not.toContain("9434765919");
    expect(readText("case,eye\n9434765919,R\n").columns[0]?.by).toBe("name");
  });

  test("a row whose values have moved shows none of them", () => {
    const text = "eye,name,case,age\nR,Vane, Ada,1,50\nL,Finch,2,60\n";
    const reading = readText(text);
    expect(codesOf(reading)).toContain("row-long");
    expect(everyText(reading)).not.toContain("Ada");
  });

  test("nor keeps them where any text would be", () => {
    const long = readText("eye,name,notes,seen\nR,Vane, Ada,well,well\nL,Finch,ill,ill\n");
    expect(valuesOf(long, "notes")).toEqual([null, "ill"]);
    expect(everyText(long)).not.toContain("Ada");
    const short = readText("case,notes,name,age\n1,Vane,50\n2,ill,Finch,60\n");
    expect(valuesOf(short, "notes")).toEqual([null, "ill"]);
    expect(everyText(short)).not.toContain("Vane");
  });
});
