import { describe, expect, test } from "vitest";
import { columnNamed } from "../../src/cases/table.ts";
import { codesOf, readText, valuesOf } from "./read-text.ts";

/** Names and values of all columns. */
function contents(text: string): object {
  const { columns } = readText(text).cases;
  return Object.fromEntries(columns.map(({ name, values }) => [name, values]));
}

const three = "case,eye,age\n1,R,50\n2,L,60\n3,R,70\n";
const threeRead = {
  case: ["1", "2", "3"],
  eye: ["right", "left", "right"],
  age: [50, 60, 70],
};

describe("wide, narrow, short", () => {
  test("two hundred columns, each with its own values", () => {
    const names = Array.from({ length: 199 }, (_, i) => `score_${i}`);
    const row = (r: number) => names.map((_, i) => String(r * 1000 + i));
    const text = [
      ["eye", ...names],
      ["R", ...row(1)],
      ["L", ...row(2)],
    ].map((c) => c.join(","));
    const reading = readText(text.join("\n"));
    expect(reading.columns).toHaveLength(200);
    expect(reading.problems).toEqual([]);
    for (const [i, name] of names.entries()) {
      expect(columnNamed(reading.cases, name)).toMatchObject({
        kind: "number",
        values: [1000 + i, 2000 + i],
      });
    }
  });

  test("one row, one column, one row that is not ended", () => {
    expect(contents("case,eye,age\n1,R,50")).toMatchObject({
      case: ["1"],
      eye: ["right"],
      age: [50],
    });
    expect(contents("eye\nR\nL\n")).toMatchObject({ eye: ["right", "left"], case: ["1", "2"] });
    const reading = readText("eye;age\r\nR;50");
    expect(reading).toMatchObject({ rowsRead: 1, lines: [2], leftOut: [] });
  });

  test.each([
    ["headings alone", "case,eye,age\n", "no-rows"],
    ["headings and blank lines", "case,eye,age\n\n,,\n \n", "no-rows"],
    ["headings and a totals line", "case,eye,age\nTotal,,0\n", "no-rows"],
    ["nothing", "", "file-empty"],
    ["blank lines", "\n\r\n \n", "file-empty"],
  ])("no row: %s", (_, text, code) => {
    const reading = readText(text);
    expect(codesOf(reading)).toContain(code);
    expect(reading.lines).toEqual([]);
    expect(reading.rowsRead).toBe(reading.leftOut.length);
  });
});

describe("line ends", () => {
  test.each(["\n", "\r\n", "\r"])("%j: the same values, the same lines", (end) => {
    const text = `Audit of the year\n\n${three.replace("2,L", '2,"L"')}`.replaceAll("\n", end);
    expect(contents(text)).toMatchObject(threeRead);
    expect(readText(text).lines).toEqual([4, 5, 6]);
  });

  test.each(["\n", "\r\n", "\r"])("%j inside quotes is part of the value", (end) => {
    const text = ["case,eye,notes", `1,R,"one${end}two ""three"""`, "2,L,four", ""].join(end);
    const reading = readText(text);
    expect(valuesOf(reading, "notes")).toEqual([`one${end}two "three"`, "four"]);
    expect(reading.lines).toEqual([2, 4]);
  });
});

describe("headings", () => {
  test("repeated: the first stands for the field, each keeps its values", () => {
    const reading = readText("case,eye,eye,score,score,score\n1,R,L,1,2,3\n2,L,R,4,5,6\n");
    expect(reading.columns.map(({ heading, name }) => [heading, name])).toEqual([
      ["case", "case"],
      ["eye", "eye"],
      ["eye (2)", "eye_2"],
      ["score", "score"],
      ["score (2)", "score_2"],
      ["score (3)", "score_3"],
    ]);
    expect(valuesOf(reading, "eye_2")).toEqual(["L", "R"]);
    expect(valuesOf(reading, "score_3")).toEqual([3, 6]);
    expect(codesOf(reading)).toEqual([
      "heading-twice",
      "heading-twice",
      "heading-twice",
      "field-twice",
    ]);
  });

  test("empty, with values beneath: called by their place; without any: no column", () => {
    const reading = readText("case,,eye,,\n1,x,R,,\n2,y,L,,\n");
    expect(reading.columns.map(({ heading }) => heading)).toEqual(["case", "column 2", "eye"]);
    expect(valuesOf(reading, "column_2")).toEqual(["x", "y"]);
    expect(codesOf(reading)).toEqual(["heading-empty"]);
  });

  test.each([
    ["one line", "Retinal detachment audit 2024\n"],
    ["lines with delimiters", "Audit,,\nUnit: Saltmarsh,,2024\n\n"],
    ["three lines and a blank one", "Audit\nUnit\nOperated 2024-01-01 to 2024-12-31\n\n"],
    ["a line as wide as the table", "Retinal detachment,audit of the unit,2024\n"],
  ])("titles above the headings: %s", (_, titles) => {
    const reading = readText(titles + three);
    expect(contents(titles + three)).toMatchObject(threeRead);
    expect(codesOf(reading)).toEqual(["title-lines"]);
    const above = titles.split("\n").length - 1;
    expect(reading.lines).toEqual([2, 3, 4].map((line) => line + above));
  });
});

describe("below the rows", () => {
  test.each([
    ["Total", "Total,,180"],
    ["TOTALS", "TOTALS,3,180"],
    ["Mean", ",Mean,60"],
    ["n", "n,3,"],
    ["Grand total", "Grand total,,180,"],
    ["Average and total", "Average,,60\nTotal,,180"],
  ])("a line of totals is no case: %s", (_, totals) => {
    const reading = readText(`${three}${totals}\n`);
    expect(contents(`${three}${totals}\n`)).toMatchObject(threeRead);
    const below = totals.split("\n").length;
    expect(reading.rowsRead).toBe(3 + below);
    expect(reading.leftOut.map(({ line, code }) => [line, code])).toEqual(
      [5, 6].slice(0, below).map((line) => [line, "line-below-table"]),
    );
  });

  test("the word inside the table is a value, not a line of totals", () => {
    const text = "case,eye,extent\nTotal,R,1\n2,L,2\n3,R,total\n4,L,3\n5,L,4\n6,R,5\n7,L,6\n";
    const reading = readText(text);
    expect(reading.leftOut).toEqual([]);
    expect(valuesOf(reading, "case")?.[0]).toBe("Total");
  });
});

describe("delimiters at the end", () => {
  test.each([
    ["of every line", three.replaceAll("\n", ",,,\n")],
    ["of the headings", three.replace("\n", ",,,\n")],
    ["of the rows", three.replaceAll(/(\d)\n/g, "$1,,\n")],
    ["of one row", three.replace("60\n", "60,,\n")],
  ])("%s make no column and no query", (_, text) => {
    const reading = readText(text);
    expect(contents(text)).toMatchObject(threeRead);
    expect(reading.columns).toHaveLength(3);
    expect(reading.problems).toEqual([]);
  });
});

describe("decimal commas", () => {
  const read = {
    axial_length: [24.5, 26.125, 23],
    refraction: [-1.25, 0.5, null],
    score: [1.5, 2, 0.75],
  };

  test.each([
    ["between semicolons", ";", (value: string) => value],
    ["between tabs", "\t", (value: string) => value],
    ["in quotes between commas", ",", (value: string) => `"${value}"`],
  ])("%s", (_, delimiter, quoted) => {
    const rows = [
      ["axial_length", "refraction", "score"],
      ["24,5", "-1,25", "1,5"],
      ["26,125", "+0,50", "2"],
      ["23", "", ",75"],
    ];
    const text = rows.map((row) => row.map(quoted).join(delimiter)).join("\n");
    expect(contents(text)).toMatchObject(read);
    expect(readText(text).problems).toEqual([]);
  });

  test("a comma for thousands is not taken for one", () => {
    const reading = readText('case,oil\n1,"1,000"\n2,"5,000"\n3,"1,300"\n');
    expect(valuesOf(reading, "oil")).not.toContain(1);
  });
});
