import { describe, expect, test } from "vitest";
import { dayFromParts } from "../../src/cases/calendar-day.ts";
import type { Matching } from "../../src/cases/matching.ts";
import { columnNamed } from "../../src/cases/table.ts";
import { codesOf, readText, valuesOf } from "./read-text.ts";

const plain = `case,patient,eye,operation_date,technique,last_seen_date,status_last_seen,redetachment_date
1,A,right,2024-01-03,scleral buckle,2024-06-01,attached,
2,B,left,2024-02-03,vitrectomy,2024-06-01,detached,2024-03-01
3,B,left,2024-03-10,vitrectomy,2024-06-01,attached,
`;

describe("reading cases", () => {
  test("a plain file", () => {
    const reading = readText(plain);
    expect(reading.problems).toEqual([]);
    expect(reading).toMatchObject({ rowsRead: 3, lines: [2, 3, 4], leftOut: [] });
    expect(reading.file).toMatchObject({ name: "cases.csv", encoding: "UTF-8", delimiter: "," });
    expect(valuesOf(reading, "patient")).toEqual(["P001", "P002", "P002"]);
    expect(valuesOf(reading, "operation_date")).toEqual([19_725, 19_756, 19_792]);
    expect(valuesOf(reading, "redetachment_date")).toEqual([null, 19_783, null]);
    expect(valuesOf(reading, "operation_number")).toEqual([1, 1, 2]);
    expect(columnNamed(reading.cases, "eye")).toMatchObject({
      kind: "code",
      order: ["right", "left"],
    });
    expect(reading.columns[7]).toEqual({
      heading: "redetachment_date",
      position: 7,
      name: "redetachment_date",
      field: "redetachment_date",
      by: "name",
      sample: ["2024-03-01"],
      missing: 2,
    });
  });

  test("headings as departments write them: who, how old, how it went", () => {
    const reading = readText(
      "Hosp No;Laterality;Date of surgery;Age at op;Operation;Last FU;Outcome\n" +
        "K1;RE;2025-01-15;64;PPV;2025-12-05;flat\nK1;LE;2025-02-25;65;buckle;2025-12-05;detached\n",
    );
    expect(reading.problems).toEqual([]);
    expect(valuesOf(reading, "patient")).toEqual(["P001", "P001"]);
    expect(valuesOf(reading, "age")).toEqual([64, 65]);
    expect(valuesOf(reading, "status_last_seen")).toEqual(["attached", "detached"]);
  });

  test("reads the same with any delimiter, encoding mark and line end", () => {
    const base = readText(plain).cases.columns;
    for (const delimiter of [";", "\t", "|"]) {
      const text = `\ufeff${plain.replaceAll(",", delimiter).replaceAll("\n", "\r\n")}`;
      expect(readText(text).cases.columns).toEqual(base);
    }
  });

  test("titles above, totals, blank lines and trailing delimiters", () => {
    const text = `Retinal detachment audit,,\n\ncase,eye,age,\n1,R,50,\n\n2,L,60,\nTotal,2,110,\n`;
    const reading = readText(text);
    expect(codesOf(reading)).toEqual(["title-lines", "line-below-table"]);
    expect(reading.rowsRead).toBe(3);
    expect(reading.lines).toEqual([4, 6]);
    expect(reading.leftOut).toEqual([
      { line: 7, code: "line-below-table", reason: "a line of totals or a remark below the table" },
    ]);
    expect(reading.cases.columns.map(({ name }) => name)).toEqual(["case", "eye", "age"]);
  });

  test("a line that names the delimiter", () => {
    const reading = readText("sep=;\ncase;eye\n1;R\n");
    expect(reading.file.delimiter).toBe(";");
    expect(reading.lines).toEqual([3]);
  });

  test("headings put in again between rows are left out", () => {
    const reading = readText("case,eye\n1,R\ncase,eye\n2,L\n");
    expect(reading.leftOut.map(({ line, code }) => [line, code])).toEqual([[3, "headings-again"]]);
    expect(reading.rowsRead).toBe(3);
  });

  test("a department's own columns keep their values and get names that are names", () => {
    const text = `case,My Score (%),if,6 month VA,Ünit code,age ,Age,__proto__\n1,1.5,x,a,0012,5,50,p\n2,2,y,b,0013,6,60,q\n`;
    const reading = readText(text);
    const own = reading.columns.filter(({ field }) => field === undefined);
    expect(own.map(({ name }) => name)).toEqual([
      "my_score",
      "if_2",
      "column_6_month_va",
      "unit_code",
      "age_2",
      "proto",
    ]);
    expect(columnNamed(reading.cases, "my_score")?.kind).toBe("number");
    expect(columnNamed(reading.cases, "unit_code")).toMatchObject({
      kind: "text",
      values: ["0012", "0013"],
    });
    expect(codesOf(reading)).toEqual(["field-twice"]);
  });

  test("the kind of an own column comes from all its values, not the first", () => {
    const rows = Array.from({ length: 3000 }, (_, i) => `${i},${i === 2999 ? "n12" : i},yes`);
    const reading = readText(`case,late,agreed\n${rows.join("\n")}\n`);
    expect(columnNamed(reading.cases, "late")?.kind).toBe("text");
    expect(columnNamed(reading.cases, "agreed")?.kind).toBe("truth");
  });

  test("kinds of own columns", () => {
    const text = `case,plain,zeros,when,either,group,free\n1,1.5,007,2024-01-01,03/04/2024,a,one\n2,-2,008,2024-02-01,05/06/2024,a,two\n3,,010,,07/07/2024,b,three\n4,3e-05,011,2024-03-09,01/02/2024,b,four\n`;
    const kinds = readText(text).cases.columns.map(({ name, kind }) => [name, kind]);
    expect(Object.fromEntries(kinds)).toEqual({
      case: "text",
      plain: "number",
      zeros: "text",
      when: "day",
      either: "text",
      group: "code",
      free: "text",
    });
  });

  test("headings by spelling, by nearness where the values fit, and not where they do not", () => {
    const text = `Date of Surgery,Laterality,tecnique,futime,status,opration date\n2024-01-01,OD,PPV,12,1,x\n2024-01-02,OS,SB,13,0,y\n`;
    const reading = readText(text);
    expect(reading.columns.map(({ name, by }) => [name, by])).toEqual([
      ["operation_date", "spelling"],
      ["eye", "spelling"],
      ["technique", "guess"],
      ["futime", "unmatched"],
      ["status", "unmatched"],
      ["opration_date", "unmatched"],
    ]);
    expect(codesOf(reading)).toEqual(["heading-guessed"]);
  });

  test("the notebook's matching comes first, and what it says of other files stays", () => {
    const matching: Matching = {
      columns: new Map([
        ["WHEN", { field: "operation_date", dayOrder: "month first" }],
        ["side", { leave: true }],
        ["pts", { name: "points", kind: "number", unit: "points" }],
        ["elsewhere", { field: "age" }],
      ]),
      values: new Map([["technique", new Map([["Op 3", "vitrectomy"]])]]),
    };
    const text = "case,when,side,pts,procedure\n1,03/04/2024,R,4,Op 3\n";
    const reading = readText(text, { matching });
    expect(valuesOf(reading, "operation_date")).toEqual([dayFromParts(2024, 3, 4)]);
    expect(valuesOf(reading, "eye")).toBeUndefined();
    expect(columnNamed(reading.cases, "points")).toMatchObject({ kind: "number", unit: "points" });
    expect(valuesOf(reading, "technique")).toEqual(["vitrectomy"]);
    expect(reading.matching.columns.get("elsewhere")).toEqual({ field: "age" });
    expect(reading.matching.values).toBe(matching.values);
  });

  test("reading again by the matching that it gave changes nothing", () => {
    const text = `id,op date,eye,score,dob,when_seen\n7,13/01/2024,R,5,21/02/1950,14/01/2024\n8,03/04/2024,L,6,02/03/1951,05/06/2024\n`;
    const first = readText(text);
    const again = readText(text, { matching: first.matching });
    expect(again.cases.columns).toEqual(first.cases.columns);
    expect(again.matching).toEqual(first.matching);
    expect(again.problems.filter(({ severity }) => severity !== "note")).toEqual([]);
  });

  test("quadrants from clock hours, only where not given", () => {
    const given = readText("case,clock_hours_detached\n1,3\n2,3.5\n3,12\n4,0\n5,\n");
    expect(valuesOf(given, "quadrants_detached")).toEqual([1, 2, 4, 0, null]);
    const both = readText("case,clock_hours_detached,quadrants_detached\n1,3,4\n");
    expect(valuesOf(both, "quadrants_detached")).toEqual([4]);
  });

  test("extent and zone of PVR fill gaps and never replace", () => {
    const reading = readText("case,pvr_grade,pvr_clock_hours\n1,CP3,\n2,CA4,5\n3,none,\n");
    expect(valuesOf(reading, "pvr_clock_hours")).toEqual([3, 5, null]);
    expect(valuesOf(reading, "pvr_zone")).toEqual(["posterior", "anterior", null]);
  });

  test("a case without an id is called by its row, and ids are made distinct", () => {
    expect(valuesOf(readText("eye,age\nR,5\nL,6\n"), "case")).toEqual(["1", "2"]);
    const reading = readText("case,eye\na,R\n,L\na,R\n");
    expect(valuesOf(reading, "case")).toEqual(["a", "row 2", "a (2)"]);
    expect(codesOf(reading)).toEqual(["case-twice"]);
  });

  test("without patients each row is an eye and its first operation", () => {
    const reading = readText("case,operation_date\n1,2024-01-01\n2,\n");
    expect(valuesOf(reading, "operation_number")).toEqual([1, 1]);
  });

  test("an eye with an operation of unknown date has no numbers", () => {
    const text = "case,patient,eye,operation_date\n1,A,R,2024-01-01\n2,A,R,\n3,A,L,\n";
    expect(valuesOf(readText(text), "operation_number")).toEqual([null, null, 1]);
  });
});
