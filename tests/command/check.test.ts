import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { run } from "../../src/command/run.ts";
import { workbookOf } from "../cases/workbook-of.ts";

async function check(content: string | Uint8Array, ...more: string[]) {
  const folder = mkdtempSync(join(tmpdir(), "holdfast-"));
  const path = join(folder, "cases.csv");
  writeFileSync(path, content);
  let said = "";
  const exit = await run(["check", path, ...more], {
    say: (text) => {
      said += text;
    },
    warn: () => {},
    isTerminal: false,
    today: 20543,
  });
  return { exit, said };
}

const head = "patient,eye,operation_date,last_seen_date,status_last_seen,age\n";

describe("check", () => {
  test("a file without a problem", async () => {
    const { exit, said } = await check(`${head}P1,right,2025-01-01,2025-03-01,attached,60\n`);
    expect({ exit, said }).toEqual({
      exit: 0,
      said: "1 row read, 1 kept, 0 left out, no queries\n",
    });
  });

  test("headings that nothing is known of are named, and alone are a problem", async () => {
    const more = await check(
      `${head.trim()},Notes\nP1,right,2025-01-01,2025-03-01,attached,60,seen by A\n`,
    );
    expect(more.exit).toBe(0);
    expect(more.said).toBe(
      "not matched, kept as columns of their own: Notes (holdfast fields says what is known)\n\n" +
        "1 row read, 1 kept, 0 left out, no queries\n",
    );
    const alien = await check("foo,bar\n1,2\n3,4\n");
    expect(alien.exit).toBe(1);
    expect(alien.said).toMatch(/^no heading of this file is known: not matched, .*: foo, bar \(/);
    const { headings } = JSON.parse((await check("foo,age\nx,2\n", "--json")).said);
    expect(headings).toEqual([
      { heading: "foo", field: null, by: "unmatched" },
      { heading: "age", field: "age", by: "name" },
    ]);
  });

  const faulty = `${head}P1,right,2025-01-01,2024-12-01,attached,60\nP2,left,2025-01-01,2025-03-01,attached,203\n`;

  test("every problem with its line, what was found and how to mend it", async () => {
    const { exit, said } = await check(faulty);
    expect(exit).toBe(1);
    expect(said).toMatch(/cases\.csv, line 2, last_seen_date: .*\n {2}found {5}/);
    expect(said).toMatch(/cases\.csv, line 3, age: .*\n {2}found {5}203\n {2}expected {2}0 to 115/);
    expect(said).toMatch(/2 rows read, 1 kept, 1 left out/);
  });

  test("the same as JSON", async () => {
    const { said } = await check(faulty, "--json");
    const read = JSON.parse(said);
    expect(read).toMatchObject({ rows_read: 2, rows_kept: 1, rows_left_out: 1 });
    expect(read.left_out[0]).toMatchObject({ line: 2 });
    expect(read.problems.map((each: { place: { line: number } }) => each.place.line)).toEqual([
      2, 3,
    ]);
  });

  test("quiet says nothing, and a file of nothing cannot be read", async () => {
    expect(await check(faulty, "--quiet")).toEqual({ exit: 1, said: "" });
    expect((await check("")).exit).toBe(2);
  });
});

describe("a workbook", () => {
  const headings = ["patient", "eye", "operation_date", "last_seen_date", "status_last_seen"];
  const row = ["P1", "right", "2025-01-01", "2025-03-01", "attached"];
  const book = workbookOf({
    Notes: [["nothing here"]],
    Operations: [headings, row],
    More: [headings.slice(0, 4), row.slice(0, 4), ["P2", ...row.slice(1, 4)]],
  });

  test("is read by the sheet whose headings are known, or by the one that is named", async () => {
    const first = await check(book, "--json");
    expect(JSON.parse(first.said)).toMatchObject({ rows_read: 1, file: { sheet: "Operations" } });
    const named = await check(book, "--json", "--sheet", "More");
    expect(JSON.parse(named.said)).toMatchObject({ rows_read: 2, file: { sheet: "More" } });
  });

  test("a sheet that it does not have is refused by name", async () => {
    const { exit, said } = await check(book, "--sheet", "Theatre");
    expect(exit).toBe(2);
    expect(said).toMatch(/Theatre/);
    expect(said).toMatch(/Notes, Operations/);
  });
});
