import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeEach, describe, expect, test } from "vitest";
import type { Correction } from "../../src/cases/corrections/correction.ts";
import { writeCorrections } from "../../src/cases/corrections/write-corrections.ts";
import { run } from "../../src/command/run.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "holdfast-"));
});

const notebook = `# Ages

    ages = summarise(cases, oldest: max(age), failed: count_known(redetachment_date))
`;
const head = "case,patient,eye,operation_date,technique,age,redetachment_date\n";
const first = `${head}1,P1,right,2025-01-06,scleral buckle,34,\n2,P2,left,2025-02-03,vitrectomy,61,\n`;
const later = `${head}2,P2,left,2025-02-03,vitrectomy,61,\n3,P3,left,2025-03-10,vitrectomy,70,\n`;
const corrections: readonly Correction[] = [
  {
    row: { by: "case", case: "1" },
    ...{ field: "age", from: "34", to: "84", why: "digits misread", correctedDay: 20_500 },
  },
  {
    row: { by: "case", case: "2" },
    ...{ field: "age", from: "16", to: "17", why: "typed wrongly", correctedDay: 20_500 },
  },
];

function file(name: string, text: string): string {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
}

async function report(...more: string[]) {
  const warned: string[] = [];
  const speaker = { say: () => {}, warn: (text: string) => warned.push(text) };
  const given = ["report", file("ages.md", notebook), file("first.csv", first)];
  const exit = await run([...given, "--into", join(folder, "out"), ...more], {
    ...speaker,
    ...{ isTerminal: false, today: 20_543 },
  });
  if (exit === 2) return { exit, warned: warned.join("") };
  const results = JSON.parse(readFileSync(join(folder, "out", "results.json"), "utf8"));
  const page = readFileSync(join(folder, "out", "report.html"), "utf8");
  return { exit, warned: warned.join(""), results, page };
}

describe("what lies over the file of cases", () => {
  test("nothing", async () => {
    const { results, page } = await report();
    expect(results.cells.ages.figures).toMatchObject({ oldest: 61, rows: 2, failed: 0 });
    expect(results.cases.laid).toEqual([]);
    expect(page).not.toContain("Over it");
  });

  test("corrections are applied again, one that no longer fits is a query", async () => {
    const list = file("corrections.csv", writeCorrections(corrections));
    const { exit, results, page } = await report("--corrections", list);
    expect(exit).toBe(0);
    expect(results.cells.ages.figures).toMatchObject({ oldest: 84, rows: 2 });
    expect(results.cases.corrections).toEqual({ applied: 1, notFitting: 1 });
    expect(page).toMatch(
      /Over it lie corrections\.csv, SHA-256 <code>[0-9a-f]{64}<\/code>\. 1 correction applied, 1 no longer fitting\./,
    );
    const problems = readFileSync(join(folder, "out", "problems.csv"), "utf8");
    expect(problems).toContain("correction");
  });

  test("a later export", async () => {
    const { results } = await report("--later", file("later.csv", later));
    expect(results.cells.ages.figures).toMatchObject({ oldest: 70, rows: 3 });
    expect(results.cases.laid).toMatchObject([{ name: "later.csv" }]);
  });

  test("a file that follows up, beside a later export", async () => {
    const seen = file("seen.csv", "case,redetachment_date\n2,2025-05-01\n3,\n");
    const { results } = await report("--later", file("later.csv", later), "--follow-up", seen);
    expect(results.cells.ages.figures).toMatchObject({ rows: 3, failed: 1 });
    expect(results.cases.laid.map(({ name }: { name: string }) => name)).toEqual([
      "later.csv",
      "seen.csv",
    ]);
  });

  test("a list of corrections that cannot be read refuses the report", async () => {
    const bad = file("bad.csv", "what,why\n1,2\n");
    expect(await report("--corrections", bad)).toMatchObject({
      exit: 2,
      warned: expect.stringContaining("bad.csv"),
    });
    expect(await report("--later", join(folder, "none.csv"))).toMatchObject({
      exit: 2,
      warned: expect.stringContaining("none.csv: this file cannot be read"),
    });
  });
});
