import { readFileSync } from "node:fs";
import { csvFormatRows, csvParseRows } from "d3-dsv";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { generateDemo } from "../../../data-demo/generate.ts";
import { quantities } from "../../../src/aggregates/aggregates-file.ts";
import { readCaseFiles } from "../../../src/cases/joining/read-case-files.ts";
import { vocabulary } from "../../../src/questions/vocabulary.ts";
import { NotebookSession } from "../../../src/recalculation/notebook-session.ts";
import { aggregatesOfSession } from "../../../src/report/pooling/aggregates-of-session.ts";
import type { ReportInput } from "../../../src/report/report-input.ts";
import { reportOfSession } from "../../../src/report/report-of-session.ts";
import { keyOfDescribed, type RowsOnLines } from "../../../src/report/sharing/rows-on-lines.ts";
import { sharedReport } from "../../../src/report/sharing/shared-report.ts";
import { sharedResultsJson } from "../../../src/report/sharing/shared-results.ts";

/*
 * The same cases as one file and as two, whose lines bear the same numbers: what may be shared of them,
 * and handed over, is the same.
 */
const [headings = [], ...rows] = csvParseRows(generateDemo(7, { faults: false }).csv);
const half = Math.ceil(rows.length / 2);
const bytesOf = (some: readonly string[][]) =>
  new TextEncoder().encode(csvFormatRows([headings, ...some]));

async function sessionOf(...files: readonly Uint8Array[]): Promise<NotebookSession<never>> {
  const session = new NotebookSession<never>({
    vocabulary,
    version: "0",
    readCases: (file, matching, { further }) =>
      readCaseFiles(file, further, { matching, today: 20_543 }),
    withSetting: (working) => working,
  });
  session.openNotebook("notebook.md", readFileSync("notebooks/demo.md", "utf8"));
  const [first = new Uint8Array(), second] = files;
  session.openCases("first.csv", first);
  if (second !== undefined) {
    expect(session.addFile({ name: "second.csv", bytes: second, as: "operations" })).toEqual([]);
  }
  await session.sheet.settled();
  return session;
}

describe("a report to share over two files", () => {
  let sessions: NotebookSession<never>[];
  let inputs: ReportInput[];
  beforeAll(async () => {
    sessions = [
      await sessionOf(bytesOf(rows)),
      await sessionOf(bytesOf(rows.slice(0, half)), bytesOf(rows.slice(half))),
    ];
    inputs = sessions.map((session) => reportOfSession(session, { version: "0", sha256: "" }));
  }, 60_000);
  afterAll(() => {
    for (const session of sessions) session.dispose();
  });

  test("rests on as many rows, of which two stand on one line", () => {
    const [one, two] = inputs;
    expect(two?.cases.rowsKept).toBe(one?.cases.rowsKept);
    expect(one?.cases.rowsOnLines).toBeUndefined();
    const shared = [...(two?.cases.rowsOnLines?.values() ?? [])].filter(({ length }) => length > 1);
    expect(shared.length).toBeGreaterThan(200);
    expect(two?.cases.patientOf?.size).toBe(one?.cases.patientOf?.size);
  });

  test("shows the same numbers and withholds the same", () => {
    const [one, two] = inputs.map((input) => {
      const shared = sharedReport(input, { threshold: 5, seed: 7 });
      return JSON.parse(sharedResultsJson(shared)).cells;
    });
    const names = Object.keys(one).filter((name) => one[name].rows !== undefined);
    expect(names.length).toBeGreaterThan(5);
    for (const name of names) {
      if (one[name].question === "case_flow") continue;
      expect({ name, ...two[name] }).toEqual({ name, ...one[name] });
    }
  });

  test("withholds an answer whose rows it cannot tell from those of the other file", () => {
    const [, two] = inputs;
    if (two === undefined) throw new Error("there is no second report");
    const shared = sharedReport(two, { threshold: 5, seed: 7 });
    const flow = shared.cells.find(({ name }) => name === "rows_and_eyes");
    expect(flow?.withheld?.join()).toContain("rows of several files that cannot be told apart");
  });

  test("hands over aggregates whose counts are those of one file, where both tell them", () => {
    const [one, two] = sessions.map((session) => {
      const made = aggregatesOfSession(session, { version: "0", threshold: 5, by: [] });
      if ("problems" in made) throw new Error(JSON.stringify(made.problems));
      return made.aggregates.groups;
    });
    expect(two?.map(({ by }) => by)).toEqual(one?.map(({ by }) => by));
    const counts = quantities.flatMap((name) =>
      (one ?? []).map((group, at) => [group[name], two?.[at]?.[name]]),
    );
    const told = counts.filter((pair) => pair.every((count) => typeof count === "number"));
    expect(told.length).toBeGreaterThan(30);
    for (const [first, second] of told) expect(second).toBe(first);
  });
});

describe("the key of a described row", () => {
  const rowsOf = (marks: readonly string[]): RowsOnLines =>
    new Map([
      [12, marks.map((mark, key) => ({ key: key + 1, marks: new Map([["patient", mark]]) }))],
    ]);
  const row = { lines: [12, 40], texts: ["P2", "right"] };
  const headings = ["patient", "eye"];

  test("is its line where there is one file, and else that of the row it fits", () => {
    expect(keyOfDescribed(row, headings, undefined)).toBe(12);
    expect(keyOfDescribed(row, headings, rowsOf(["P1", "P2"]))).toBe(2);
  });

  test.each([
    ["two rows are named alike", rowsOf(["P2", "P2"]), headings],
    ["none is named so", rowsOf(["P1", "P3"]), headings],
    ["the answer does not name its rows", rowsOf(["P1"]), ["technique", "eye"]],
  ])("is not told where %s", (_, rows, said) => {
    expect(keyOfDescribed(row, said, rows)).toBeUndefined();
  });
});
