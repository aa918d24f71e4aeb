import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeEach, describe, expect, test } from "vitest";
import { run } from "../../src/command/run.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "holdfast-"));
});

/** Runs the command line and keeps what it said. */
async function command(...given: string[]) {
  const said: string[] = [];
  const warned: string[] = [];
  const exit = await run(given, {
    say: (text) => said.push(text),
    warn: (text) => warned.push(text),
    isTerminal: false,
    today: 20543,
  });
  return { exit, said: said.join(""), warned: warned.join("") };
}

function file(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const out = (name = ""): string => join(folder, "out", name);
const report = (notebook: string, cases: string, ...more: string[]) =>
  command("report", notebook, cases, "--into", out(), ...more);

const demo = "notebooks/demo.md";
const demoCases = "data-demo/repairs.csv";

describe("the report of the demo", () => {
  test("writes report, tables and results, and says so", async () => {
    const { exit, said, warned } = await report(demo, demoCases);
    expect({ exit, warned }).toEqual({ exit: 0, warned: "" });
    expect(said).toMatch(
      /^\d+ rows read, \d+ kept, \d+ left out, (\d+|no) quer(y|ies)\nwritten to /,
    );
    expect(readdirSync(out()).sort()).toEqual([
      ...["by_risk.csv", "differ.csv", "differ_within.csv", "how_often.csv", "problems.csv"],
      ...["report.html", "results.json", "rows_and_eyes.csv", "when.csv", "why.csv"],
    ]);
  });

  test("results tell the files and their rows, and no code of a surgeon or patient", async () => {
    await report(demo, demoCases);
    const text = readFileSync(out("results.json"), "utf8");
    expect(Object.keys(JSON.parse(text).cases)).toEqual([
      ...["file", "sha256", "laid", "corrections"],
      ...["rowsRead", "rowsKept", "rowsLeftOut", "queries"],
    ]);
    expect(text).not.toMatch(/\bSM\d{4}\b/);
    expect(text).not.toMatch(/"(people|textColumns|patientOf)"/);
  });

  test("report, table and results say the same numbers", async () => {
    await report(demo, demoCases);
    const { cells } = JSON.parse(readFileSync(out("results.json"), "utf8"));
    const { figures, sentence } = cells.how_often;
    const page = readFileSync(out("report.html"), "utf8");
    expect(page).toContain(`${figures.failed} redetached or never lay flat`);
    expect(sentence).toContain(`${(100 * figures.headline_rate).toFixed(1)}%`);
    const lines = readFileSync(out("how_often.csv"), "utf8").trim().split("\r\n");
    const [, eyes, failed, rate] = lines.at(-1)?.split(",") ?? [];
    expect([Number(eyes), Number(failed)]).toEqual([cells.eyes.value.eyes, figures.failed]);
    expect(Number(rate)).toBe(figures.headline_rate);
    expect(figures.eyes + figures.not_known).toBe(cells.eyes.value.eyes);
  });

  test("the report needs nothing else and carries its cautions", async () => {
    await report(demo, demoCases, "--dated", "2026-03-31");
    const page = readFileSync(out("report.html"), "utf8");
    expect(page).not.toMatch(/(src|href)="?(https?:)?\/\/|<script|<link|@import/);
    expect(page).toContain("not advice for a patient");
    expect(page).toContain("Techniques were chosen for reasons");
    expect(page).toContain("2026-03-31");
    expect(page.match(/<svg [^>]*role="img" aria-label="[^"]{20,}/g)?.length).toBeGreaterThan(3);
  });

  test("the same notebook and cases give the same bytes", async () => {
    await report(demo, demoCases);
    const first = ["report.html", "results.json"].map((name) => readFileSync(out(name), "utf8"));
    await report(demo, demoCases);
    const second = ["report.html", "results.json"].map((name) => readFileSync(out(name), "utf8"));
    expect(second).toEqual(first);
  });

  test("what was minuted is said with how it stands, and every problem of the file is listed", async () => {
    const notebook = file(
      "minuted.md",
      readFileSync(demo, "utf8").replace(/minuted (\S+): .*/, "minuted $1: 1 of 2"),
    );
    const { exit, warned } = await report(notebook, demoCases);
    expect(exit).toBe(0);
    expect(warned).toMatch(/^how_often: Minuted \S+: 1 of 2\. It is \d+ of \d+ now\.$/m);
    const page = readFileSync(out("report.html"), "utf8");
    expect(page).toMatch(/<li class="moved">Minuted/);
    expect(page).toContain("What was found in the file");
    const problems = readFileSync(out("problems.csv"), "utf8").trim().split("\r\n");
    expect(problems[0]).toBe("severity,code,line,field,message,found,expected,remedy");
    expect(problems.some((line) => line.includes("day-in-future"))).toBe(true);
  });

  test("--quiet says nothing", async () => {
    const { exit, said, warned } = await report(demo, demoCases, "--quiet");
    expect({ exit, said, warned }).toEqual({ exit: 0, said: "", warned: "" });
  });
});

describe("a file with one row an eye, its time and its event", () => {
  test("an open data set of another disease gives its published numbers", async () => {
    const { exit } = await report(
      "notebooks/retinopathy.md",
      "tests/references/data/retinopathy.csv",
    );
    expect(exit).toBe(0);
    const { cells } = JSON.parse(readFileSync(out("results.json"), "utf8"));
    // R's survdiff and survfit on the same data (package survival 3.5-3).
    expect(cells.differ.figures.chi_square).toBeCloseTo(22.2456947, 6);
    const [laser, none] = cells.arm.figures.groups;
    expect([laser.median, none.median]).toEqual([null, 43.7]);
    expect(none.landmarks[0].attached).toBeCloseTo(0.782939907, 9);
    expect(cells.how_often.figures).toMatchObject({ failed: 155, eyes: 394 });
  });
});

describe("what cannot be done", () => {
  const nothingWritten = (): boolean => !readdirSync(folder).includes("out");
  const csv = "patient,eye,operation_date,last_seen_date\nP1,right,2025-01-01,2025-03-01\n";

  test.each<[string, string | Uint8Array, RegExp]>([
    ["an empty file", "", /cases\.csv: this file holds nothing/],
    ["a binary file", new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3, 0, 0]), /cases\.csv/],
    ["no usable column", "\n\n", /cases\.csv/],
  ])("%s: exit code 2, the file named, nothing written", async (_, content, message) => {
    const { exit, warned } = await report(demo, file("cases.csv", content));
    expect(exit).toBe(2);
    expect(warned).toMatch(message);
    expect(warned).toMatch(/expected|remedy/);
    expect(nothingWritten()).toBe(true);
  });

  test("a notebook of a newer version: refused with its line", async () => {
    const newer = file("newer.md", "---\nholdfast: 99\ntitle: x\n---\n");
    const { exit, warned } = await report(newer, file("cases.csv", csv));
    expect(exit).toBe(2);
    expect(warned).toMatch(/newer\.md.*line 2/);
    expect(nothingWritten()).toBe(true);
  });

  test("a file that is not there", async () => {
    const { exit, warned } = await report(demo, join(folder, "none.csv"));
    expect(exit).toBe(2);
    expect(warned).toContain("none.csv: this file cannot be read");
  });

  test("a cell at fault: the others are written, exit code 1, the cell and its cause named", async () => {
    const notebook = file(
      "broken.md",
      [
        ...["---", "holdfast: 1", "---", ""],
        ...["    eyes = index_eyes(cases)", "", "    good = failure_rate(eyes)", ""],
        ...[
          "    bad = failure_rate(eyes, by: nonsense_column)",
          "",
          "    after = bad.rate + 1",
          "",
        ],
      ].join("\n"),
    );
    const { exit, warned } = await report(notebook, file("cases.csv", csv));
    expect(exit).toBe(1);
    expect(warned).toMatch(/bad: .*nonsense_column/);
    expect(warned).toContain("after: waits for bad");
    const { cells } = JSON.parse(readFileSync(out("results.json"), "utf8"));
    expect(cells.good.status).toBe("current");
    expect(cells.bad.status).toBe("at fault");
    expect(cells.after).toEqual({ status: "waiting", waits_for: ["bad"] });
    expect(readFileSync(out("report.html"), "utf8")).toContain("has no answer");
  });

  test("text of a file never becomes markup", async () => {
    const hostile = '"<img src=x onerror=alert(1)>"';
    const rows = Array.from(
      { length: 3 },
      (_, row) => `P${row},right,2025-01-01,2025-03-01,attached,${hostile},=1+1`,
    );
    const head = "patient,eye,operation_date,last_seen_date,status_last_seen,surgeon,centre";
    const notebook = file(
      "n.md",
      [
        ...["---", "holdfast: 1", "title: <b>x</b>", "---", ""],
        ...["    eyes = index_eyes(cases)", "", "    rate = failure_rate(eyes, by: surgeon)"],
        ...["    site = failure_rate(eyes, by: centre)", ""],
      ].join("\n"),
    );
    const { exit } = await report(notebook, file("cases.csv", [head, ...rows, ""].join("\n")));
    expect(exit).toBe(0);
    const page = readFileSync(out("report.html"), "utf8");
    expect(page).not.toContain("<img");
    expect(page).not.toContain("<b>x");
    expect(page).toContain("&lt;img src=x");
    expect(readFileSync(out("site.csv"), "utf8")).toContain("'=1+1");
  });
});

describe("the command line", () => {
  test("--help is for people", async () => {
    const { exit, said } = await command("--help");
    expect(exit).toBe(0);
    expect(said).toContain("holdfast report NOTEBOOK CASES --into FOLDER");
    expect(said).toContain("nothing leaves this machine");
    expect(said.split("\n").every((line) => line.length <= 100)).toBe(true);
  });

  test.each<[string[], RegExp]>([
    [["reprot"], /did you mean report\?/],
    [["report", "a.md"], /needs a notebook and a file of cases/],
    [["report", "a.md", "b.csv"], /--into FOLDER/],
    [["report", "a.md", "b.csv", "c.csv", "--into", "x"], /c\.csv is too many/],
    [["report", "a", "b", "--into", "x", "--dated", "today"], /not a day such as 2026-03-31/],
    [["report", "a", "b", "--into", "x", "--nonsense"], /nonsense/],
    [["words", "failure_rat"], /Did you mean failure_rate\?/],
  ])("%j is refused in words", async (given, why) => {
    const { exit, warned } = await command(...given);
    expect(exit).toBe(2);
    expect(warned).toMatch(why);
  });

  test("words lists every word, and explains one with an example", async () => {
    expect((await command("words")).said).toMatch(/^index_eyes\s+each eye's primary repair/m);
    const { said } = await command("words", "failure_rate");
    expect(said).toContain("for example\n    failure_rate(eyes, by: technique)");
  });
});
