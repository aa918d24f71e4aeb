import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CaseReading } from "../../src/cases/case-reading.ts";
import { readCases } from "../../src/cases/read-cases.ts";
import type { ReadCasesOptions } from "../../src/cases/reading-options.ts";
import { rowCount } from "../../src/cases/table.ts";
import { openWorkbook } from "../../src/cases/workbook/open-workbook.ts";
import { prepareFile } from "../../src/cases/workbook/prepare-file.ts";
import { workbookRows } from "../../src/cases/workbook/workbook-rows.ts";
import { codesOf, readText, valuesOf } from "./read-text.ts";
import { type Cell, type WorkbookOptions, workbookOf } from "./workbook-of.ts";

async function rowsOf(rows: readonly (readonly Cell[])[], options?: WorkbookOptions) {
  const opened = await openWorkbook(workbookOf({ Cases: rows }, options));
  if (!opened.ok) throw new Error(opened.why);
  return workbookRows(opened.workbook, "Cases");
}

async function read(
  bytes: Uint8Array,
  sheet?: string,
  options: ReadCasesOptions = {},
): Promise<CaseReading> {
  return readCases(await prepareFile({ name: "cases.xlsx", bytes, sheet }), options);
}

describe("the values of a sheet", () => {
  // ISO/IEC 29500-1:2016, 18.17.4: counts of days in the two date systems, here of one day.
  test.each([
    [{ since1904: false }, 45747],
    [{ since1904: true }, 44285],
  ])("days by their count %o", async (options, count) => {
    const styled = [1, 2].map((style) => ({ raw: `<c s="${style}"><v>${count}</v></c>` }));
    expect(await rowsOf([styled], options)).toEqual([["2025-03-31", "2025-03-31"]]);
    const withTime = { raw: `<c s="1"><v>${count}.999</v></c>` };
    expect(await rowsOf([[withTime]], options)).toEqual([["2025-03-31"]]);
  });

  test("days in ISO 8601, and days as text, which stay as they are", async () => {
    const iso = { raw: '<c t="d"><v>2025-03-31T00:00:00Z</v></c>' };
    expect(await rowsOf([[iso, "31/03/2025"]])).toEqual([["2025-03-31", "31/03/2025"]]);
  });

  describe.each(["Pacific/Auckland", "Europe/London", "America/New_York"])("in %s", (zone) => {
    const before = process.env.TZ;
    beforeAll(() => {
      process.env.TZ = zone;
    });
    afterAll(() => {
      if (before === undefined) delete process.env.TZ;
      else process.env.TZ = before;
    });

    test("a day is the same day, counted or in ISO 8601 with or without a zone", async () => {
      expect(new Date(2025, 6, 1).getTimezoneOffset()).not.toBe(0);
      const iso = ["2025-07-01T00:00:00", "2025-01-02T00:00:00.000"].map((text, i) => [
        { raw: `<c t="d"><v>${text}</v></c>` },
        { raw: `<c t="d"><v>${text.slice(0, 19)}Z</v></c>` },
        { day: [45839, 45659][i]! },
        { day: [45839.96, 45659.5][i]! },
      ]);
      expect(await rowsOf(iso)).toEqual([Array(4).fill("2025-07-01"), Array(4).fill("2025-01-02")]);
    });
  });

  test("a time of day, and a length of time beyond a day", async () => {
    const time = (count: number) => ({ raw: `<c s="3"><v>${count}</v></c>` });
    expect(await rowsOf([[time(8.5 / 24), time(26.25 / 24)]])).toEqual([["08:30", "26:15"]]);
  });

  test("numbers, not rounded to what the sheet shows", async () => {
    const written = [
      "0.1",
      "0.29999999999999999",
      "24.512345678901234",
      "1.5E-5",
      "12345678901234567",
    ];
    const cells = written.map((text) => ({ raw: `<c><v>${text}</v></c>` }));
    const read = ["0.1", "0.3", "24.512345678901234", "0.000015", "12345678901234567"];
    expect(await rowsOf([cells])).toEqual([read]);
  });

  test("yes and no, errors, and the value that a formula left", async () => {
    const error = { raw: '<c t="e"><v>#DIV/0!</v></c>' };
    const formula = { raw: "<c><f>1+1</f><v>2</v></c>" };
    const text = { raw: '<c t="str"><f>A1</f><v>left</v></c>' };
    expect(await rowsOf([[true, false, error, formula, text]])).toEqual([
      ["yes", "no", "", "2", "left"],
    ]);
  });

  test("text of several lines is one line; text in parts is whole", async () => {
    const parts = { raw: '<c t="inlineStr"><is><r><t>ri</t></r><r><t>ght</t></r></is></c>' };
    expect(await rowsOf([["seen\r\nagain\tlater ", parts]])).toEqual([
      ["seen again later", "right"],
    ]);
  });
});

const headings = ["case", "patient", "eye", "operation_date", "age", "axial_length", "macula"];
const cases: readonly (readonly Cell[])[] = [
  headings,
  ["0012", "A", "right", { day: 45658 }, 61, 24.25, "on"],
  ["0013", "B", "left", { day: 45689 }, 58, null, "off"],
];
const sameText = [
  headings.join(","),
  "0012,A,right,2025-01-01,61,24.25,on",
  "0013,B,left,2025-02-01,58,,off",
].join("\n");

describe("a sheet read as cases", () => {
  test("gives what the same table gives as text", async () => {
    const [ofSheet, ofText] = [await read(workbookOf({ Cases: cases })), readText(sameText)];
    expect(ofSheet.cases.columns).toEqual(ofText.cases.columns);
    expect(ofSheet.matching).toEqual(ofText.matching);
    expect(ofSheet.lines).toEqual([2, 3]);
    expect(ofSheet.problems).toEqual([]);
    expect(ofSheet.file).toMatchObject({ encoding: "workbook", sheet: "Cases", sheets: ["Cases"] });
  });

  test("lines are rows of the sheet: titles above, empty rows between, a remark below", async () => {
    const rows = [
      ["Retina repairs"],
      [],
      ...cases.slice(0, 2),
      [],
      ...cases.slice(2),
      ["as of May"],
    ];
    const reading = await read(workbookOf({ Cases: rows }, { merged: ["A1:G1"] }));
    expect(reading.lines).toEqual([4, 6]);
    expect(reading.leftOut).toMatchObject([{ line: 7, code: "line-below-table" }]);
    expect(codesOf(reading)).toEqual(["title-lines", "line-below-table"]);
  });

  test("what lies under a merged cell is missing, not guessed", async () => {
    const rows = [...cases, ["0014", null, "right", { day: 45690 }, 58, null, "on"]];
    const reading = await read(workbookOf({ Cases: rows }, { merged: ["B3:B4"] }));
    expect(valuesOf(reading, "patient")).toEqual(["P001", "P002", null]);
  });

  test("signs that other files use as delimiters stay in their values", async () => {
    const rows = [
      [...headings, "remark"],
      ...cases.slice(1).map((row) => [...row, 'a;b, "c" | d']),
    ];
    const reading = await read(workbookOf({ Cases: rows }));
    expect(valuesOf(reading, "remark")).toEqual(['a;b, "c" | d', 'a;b, "c" | d']);
    expect(rowCount(reading.cases)).toBe(2);
  });

  test("the checks are the same", async () => {
    const rows = [headings, ["1", "A", "right", "31/02/2025", 203, 24, "on"]];
    expect(codesOf(await read(workbookOf({ Cases: rows })))).toEqual(["not-a-day", "out-of-range"]);
  });
});

describe("which sheet", () => {
  const about = [["how to fill in this form"], ["eye: right or left"]];
  const bytes = workbookOf({ About: about, "Cases 2025": cases, Empty: [] });

  test("the one that looks like cases, and that is said", async () => {
    const reading = await read(bytes);
    expect(codesOf(reading)).toEqual(["sheet-chosen"]);
    expect(reading.file.sheet).toBe("Cases 2025");
    expect(reading.file.sheets).toEqual(["About", "Cases 2025", "Empty"]);
    expect(rowCount(reading.cases)).toBe(2);
  });

  test("the one that is named", async () => {
    expect(codesOf(await read(bytes, "Cases 2025"))).toEqual([]);
    expect(codesOf(await read(bytes, "About"))).toContain("no-usable-column");
    expect(codesOf(await read(bytes, "Empty"))).toEqual(["file-empty"]);
  });

  test("one that is not there is asked for", async () => {
    const reading = await read(bytes, "Cases 2024");
    expect(codesOf(reading)).toEqual(["sheet-unknown"]);
    expect(reading.file.sheets).toEqual(["About", "Cases 2025", "Empty"]);
  });
});

describe("what cannot be opened", () => {
  test("an old workbook, or one with a password", async () => {
    const bytes = Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1);
    const { problems } = await read(bytes);
    expect(problems).toMatchObject([
      { code: "file-is-workbook", found: "an old workbook (.xls), or one with a password" },
    ]);
  });

  test("a workbook cut short or changed never throws", async () => {
    const bytes = workbookOf({ Cases: cases });
    const change = fc.record({
      cut: fc.integer({ min: 1, max: bytes.length }),
      at: fc.integer({ min: 0, max: bytes.length - 1 }),
      to: fc.integer({ min: 0, max: 255 }),
    });
    const property = fc.asyncProperty(change, async ({ cut, at, to }) => {
      const changed = bytes.slice(0, cut);
      if (at < cut) changed[at] = to;
      const reading = await read(changed);
      expect(rowCount(reading.cases) + reading.leftOut.length).toBe(reading.rowsRead);
    });
    await fc.assert(property, { seed: 11, numRuns: 150 });
  });

  test("any other file stays as it is", async () => {
    const file = { name: "cases.csv", bytes: new TextEncoder().encode(sameText) };
    expect(await prepareFile({ ...file, sheet: "Cases" })).toEqual(file);
  });
});

test("a large workbook is read whole", async () => {
  const rows = Array.from({ length: 20_000 }, (_, i): Cell[] => [
    ...[i, `P${i}`, "right", { day: 40_000 + (i % 5000) }, 60, 24 + (i % 100) / 97, "on"],
  ]);
  const reading = await read(workbookOf({ Cases: [headings, ...rows] }));
  expect(rowCount(reading.cases)).toBe(20_000);
  expect(reading.problems).toEqual([]);
});
