import { beforeEach, describe, expect, test } from "vitest";
import { readCaseFiles } from "../../src/cases/joining/read-case-files.ts";
import { NotebookSession } from "../../src/recalculation/notebook-session.ts";
import { countCases } from "./count-cases.ts";
import { words } from "./words.ts";

/** Invented operations; more than one patient, so that the codes of patients are numbered. */
const rows = [
  "P1,right,2025-01-06,scleral buckle,34",
  "P2,left,2025-02-03,vitrectomy,61",
  "P3,left,2025-03-10,vitrectomy,70",
];
const head = "patient,eye,operation_date,technique,age";
const notebook = `    least = 1

    rows = count_cases(cases)
    ops  = rows + least
`;

let version: string;
let session: NotebookSession<never>;

beforeEach(() => {
  version = "0.1.0";
  session = sessionOf();
  session.openNotebook("ops.md", notebook);
  open(rows);
});

function sessionOf(): NotebookSession<never> {
  return new NotebookSession<never>({
    vocabulary: new Map([...words, ["count_cases", countCases]]),
    version,
    readCases: (file, matching, { further, corrections }) =>
      readCaseFiles(file, further, { matching, today: 20_543, corrections }),
    withSetting: (working) => working,
  });
}

function open(of: readonly string[]): void {
  session.openCases("ops.csv", new TextEncoder().encode(`${[head, ...of].join("\n")}\n`));
}

async function minute(text: string): Promise<void> {
  await session.sheet.settled();
  session.addMinuted("ops", { day: 20_543, text });
}

async function because(): Promise<readonly string[]> {
  await session.sheet.settled();
  return session.minuted("ops")[0]!.because;
}

describe("why a minuted number moved", () => {
  test("what it rests on is written behind it, and read again", async () => {
    await minute("4");
    expect(session.notebookText()).toMatch(
      /minuted 2026-03-31: 4 \[3 rows to 2025-03-10, [0-9a-f]{16}; least [0-9a-f]{6}, ops [0-9a-f]{6}, rows [0-9a-f]{6}; version 0\.1\.0\]\n/,
    );
    expect(session.minuted("ops")).toEqual([
      { day: 20_543, text: "4", verdict: "holds", because: [] },
    ]);
  });

  test("rows of later operations", async () => {
    await minute("9");
    open([...rows, "P4,right,2025-04-01,vitrectomy,80", "P0,left,2025-04-02,vitrectomy,81"]);
    expect(await because()).toEqual(["2 rows new, of later operations"]);
  });

  test("rows of that time, and an order that does not matter", async () => {
    await minute("9");
    open(["P0,left,2025-01-01,vitrectomy,81", ...rows.toReversed()]);
    expect(await because()).toEqual(["1 row new of that time"]);
    open([...rows.toReversed(), "P0,left,2025-01-01,vitrectomy,81", "P9,left,2025-06-01,,62"]);
    expect(await because()).toEqual(["1 row new, of later operations", "1 row new of that time"]);
  });

  test("rows gone", async () => {
    await minute("9");
    open(rows.slice(0, 2));
    expect(await because()).toEqual(["1 row gone"]);
  });

  test("other values in the file", async () => {
    await minute("9");
    open([rows[0]!, rows[1]!, "P3,left,2025-03-10,vitrectomy,7"]);
    expect(await because()).toEqual(["rows have other values than then"]);
  });

  test("a correction", async () => {
    await minute("9");
    const row = { by: "line", file: "ops.csv", line: 3 } as const;
    const correction = { row, field: "age", from: "61", to: "16", why: "typed wrongly" };
    expect(session.correct("correct", [{ ...correction, correctedDay: 20_543 }])).toEqual([]);
    expect(await because()).toEqual([
      "rows have other values than then",
      "1 correction lies over the file, then 0",
    ]);
  });

  test("another definition, however far behind; how it is laid out does not matter", async () => {
    await minute("9");
    session.setWorking("ops", "( rows+least )");
    expect(await because()).toEqual([
      "rows, corrections, workings and version are as they were then",
    ]);
    session.setWorking("least", "2");
    expect(await because()).toEqual(["the definition changed: another working of least"]);
    session.setWorking("ops", "rows + 2");
    expect(await because()).toEqual([
      "the definition changed: another working of ops",
      "the definition changed: it does not rest any more on least",
    ]);
  });

  test("another version of the software, or nothing that is kept", async () => {
    await minute("9");
    expect(await because()).toEqual([
      "rows, corrections, workings and version are as they were then",
    ]);
    const text = session.notebookText();
    version = "0.2.0";
    session = sessionOf();
    session.openNotebook("ops.md", text);
    open(rows);
    expect(await because()).toEqual(["the software is version 0.2.0, it was 0.1.0"]);
  });

  test("without cases, and where nothing was kept, no reason is made up", async () => {
    session.openNotebook(
      "ops.md",
      notebook.replace("+ least", "+ least\n      minuted 2026-03-14: 5"),
    );
    expect(await because()).toEqual([]);
  });
});
