import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeEach, describe, expect, test } from "vitest";
import { chromiumPath } from "../../src/command/print-pdf.ts";
import { run } from "../../src/command/run.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "holdfast-"));
});

function file(name: string, lines: readonly string[]): string {
  const path = join(folder, name);
  writeFileSync(path, `${lines.join("\n")}\n`);
  return path;
}

async function compare(...given: string[]) {
  let said = "";
  let warned = "";
  const exit = await run(["compare", ...given], {
    say: (text) => {
      said += text;
    },
    warn: (text) => {
      warned += text;
    },
    isTerminal: false,
    today: 20_543,
  });
  return { exit, said, warned };
}

const notebook = (): string =>
  file("notebook.md", [
    ...["---", "holdfast: 1", "title: Two files", "---", ""],
    ...["    window = choose([3 months, 6 months], now: 3 months)", ""],
    ...["    eyes = index_eyes(cases)", "", "    how_often = failure_rate(eyes)", ""],
    ...["    per_hundred = 100 * how_often.rate", ""],
  ]);

const head = "case,patient,eye,operation_date,last_seen_date,status_last_seen,redetachment_date";
const earlier = [
  head,
  "1,P1,right,2025-01-01,2025-07-01,attached,",
  "2,P2,left,2025-01-02,2025-07-01,attached,",
  "3,P3,left,2025-01-03,2025-07-01,attached,",
];
const later = [
  head,
  "1,P1,right,2025-01-01,2025-07-01,detached,2025-02-01",
  "2,P2,left,2025-01-02,2025-07-01,attached,",
  "4,P4,right,2025-02-03,2025-08-01,attached,",
];

describe("compare", () => {
  test("says what changed and why: rows corrected, new and gone", async () => {
    const into = join(folder, "out");
    const given = [notebook(), file("a.csv", earlier), file("b.csv", later), "--into", into];
    const { exit, said, warned } = await compare(...given);
    expect({ exit, warned }).toEqual({ exit: 0, warned: "" });
    expect(said).toMatch(/^2 of 2 answers changed; 1 row corrected, 1 new, 1 gone\n/);
    const read = JSON.parse(readFileSync(join(into, "comparison.json"), "utf8"));
    expect(Object.keys(read.cells)).toEqual(["how_often", "per_hundred"]);
    expect(read.cells.how_often).toMatchObject({
      before: { headline: expect.stringMatching(/^0 of 3/) },
      after: { headline: expect.stringMatching(/^1 of 3/) },
      changed: true,
      why: ["1 row behind it new", "1 row gone", "1 row corrected"],
    });
    expect(read.rows).toMatchObject({ by_case_id: true, new: ["4"], gone: ["3"], alike: 1 });
    const [corrected] = read.rows.corrected;
    expect(corrected.id).toBe("1");
    expect(corrected.fields).toContainEqual(
      expect.objectContaining({ from: "attached", to: "detached" }),
    );
    const page = readFileSync(join(into, "comparison.html"), "utf8");
    expect(page).toContain("not advice for a patient");
    expect(page).toContain("no test of a difference");
    // Each rate with its interval, and the curve's named where it is no quotient of the counts.
    expect(page).toMatch(/<td>1 of 3; (by the curve )?\d+\.\d% \(95% \d+\.\d to \d+\.\d%\)<\/td>/);
    expect(page).toContain("0 of 3");
  });

  test("a notebook as it was then: which definitions changed, and whose answers they feed", async () => {
    const into = join(folder, "out");
    const then = file("then.md", [
      ...["---", "holdfast: 1", "title: Then", "---", ""],
      ...["    window = choose([3 months, 6 months], now: 3 months)", ""],
      ...["    eyes=index_eyes( cases )", ""],
      ...["    how_often = failure_rate(eyes, within: window)", ""],
      ...["    per_hundred = 100 * how_often.rate", "", "    dropped = 1 + 1", ""],
    ]);
    const cases = file("a.csv", earlier);
    const { exit, said } = await compare(
      ...[notebook(), cases, cases, "--earlier", then, "--into", into],
    );
    expect(exit).toBe(0);
    expect(said).toContain("\n2 definitions changed: how_often, dropped\n");
    const read = JSON.parse(readFileSync(join(into, "comparison.json"), "utf8"));
    expect(read).toMatchObject({ notebook: "Two files", definition_changed: true });
    expect(read.workings).toEqual([
      { cell: "how_often", was: "failure_rate(eyes, within: window)", is: "failure_rate(eyes)" },
      { cell: "dropped", was: "1 + 1", is: null },
    ]);
    expect(Object.keys(read.cells)).toEqual(["how_often", "per_hundred"]);
    expect(read.cells.per_hundred.why).toEqual(["definition changed: how_often"]);
    const page = readFileSync(join(into, "comparison.html"), "utf8");
    expect(page).toContain("What is worked out otherwise");
    expect(page).toContain("<code>failure_rate(eyes, within: window)</code>");
  });

  test("the same file twice: nothing changed, and the reason says so", async () => {
    const into = join(folder, "out");
    const cases = file("a.csv", earlier);
    const { exit, said } = await compare(notebook(), cases, cases, "--into", into);
    expect(exit).toBe(0);
    expect(said).toMatch(/^0 of 2 answers changed; no rows corrected, 0 new, 0 gone\n/);
    expect(readFileSync(join(into, "comparison.html"), "utf8")).toContain(
      "the same rows, unchanged",
    );
    const read = JSON.parse(readFileSync(join(into, "comparison.json"), "utf8"));
    expect(read).toMatchObject({ definition_changed: false, workings: [], read_alike: true });
  });

  test("without ids of cases the figures are compared, and the page says that rows are not", async () => {
    const without = (lines: readonly string[]) => lines.map((line) => line.replace(/^[^,]+,/, ""));
    const into = join(folder, "out");
    const { exit } = await compare(
      notebook(),
      file("a.csv", without(earlier)),
      file("b.csv", without(later)),
      ...["--into", into],
    );
    expect(exit).toBe(0);
    const read = JSON.parse(readFileSync(join(into, "comparison.json"), "utf8"));
    expect(read.rows).toMatchObject({ by_case_id: false, new: [], gone: [] });
    expect(read.cells.how_often.changed).toBe(true);
    expect(readFileSync(join(into, "comparison.html"), "utf8")).toContain(
      "single rows cannot be compared",
    );
  });

  test("an id that stands twice tells no row from another", async () => {
    const into = join(folder, "out");
    const twice = [...earlier, "1,P9,right,2025-03-01,2025-07-01,attached,"];
    await compare(notebook(), file("a.csv", twice), file("b.csv", later), "--into", into);
    const { rows } = JSON.parse(readFileSync(join(into, "comparison.json"), "utf8"));
    expect(rows).toMatchObject({ id_twice: ["1", "1 (2)"], corrected: [] });
  });

  describe("two periods of one file", () => {
    const dated = (...dates: readonly string[]) =>
      file("dated.md", [
        ...["---", "holdfast: 1", "title: Two periods", "---", ""],
        ...dates.map((name) => `    ${name} = dates(2024-01-01, 2025-12-31)`),
        ...["", `    eyes = index_eyes(cases, from: ${dates[0]}.from, to: ${dates[0]}.to)`],
        ...["", "    how_often = failure_rate(eyes)", ""],
      ]);
    const both = [...earlier, "5,P5,right,2024-03-01,2024-09-01,detached,2024-04-01"];
    const periods = ["2024-01-01..2024-12-31", "2025-01-01..2025-12-31"];

    test("the notebook's dates are set to each", async () => {
      const into = join(folder, "out");
      const asked = periods.flatMap((period) => ["--period", period]);
      const given = [dated("period"), file("a.csv", both), ...asked, "--into", into];
      const { exit, said, warned } = await compare(...given);
      expect({ exit, warned }).toEqual({ exit: 0, warned: "" });
      expect(said).toContain("1 definition changed: period\n");
      const { before, after, cells } = JSON.parse(
        readFileSync(join(into, "comparison.json"), "utf8"),
      );
      expect([before.name, after.name]).toEqual([
        "a.csv, 2024-01-01 to 2024-12-31",
        "a.csv, 2025-01-01 to 2025-12-31",
      ]);
      expect(cells.how_often.before.headline).toMatch(/^1 of 1/);
      expect(cells.how_often.after.headline).toMatch(/^0 of 3/);
    });

    test("of several settings of dates one is named, else they are listed", async () => {
      const notebooks = dated("audit_year", "year_before");
      const asked = (cell: string) =>
        compare(
          ...[notebooks, file("a.csv", both), "--into", join(folder, "out")],
          ...periods.flatMap((period) => ["--period", `${cell}${period}`]),
        );
      const unnamed = await asked("");
      expect(unnamed.exit).toBe(2);
      expect(unnamed.warned).toContain("the notebook has audit_year, year_before");
      expect((await asked("audit_year=")).said).toContain("1 definition changed: audit_year");
      expect((await asked("eyes=")).warned).toContain("eyes is no setting of dates");
      const quiet = await compare(
        ...[dated("period"), file("a.csv", both), "--into", join(folder, "out"), "--quiet"],
        ...periods.flatMap((period) => ["--period", period]),
      );
      expect(quiet).toEqual({ exit: 0, said: "", warned: "" });
    });

    test("a notebook without dates is refused", async () => {
      const given = [notebook(), file("a.csv", both), "--into", join(folder, "out")];
      const asked = periods.flatMap((period) => ["--period", period]);
      const { exit, warned } = await compare(...given, ...asked);
      expect(exit).toBe(2);
      expect(warned).toContain("no setting of dates");
    });
  });

  test.each([
    [["a.md", "a.csv", "--into", "x", "--period", "2024-01-01..2024-12-31"], "FROM..TO twice"],
    [["a.md", "a.csv", "b.csv", "--into", "x", "--period", "2024-01-01..2024-12-31"], "one file"],
    [
      ["a.md", "a.csv", "--period", "2024-02-30..2024-12-31", "--period", "2025-01-01..2025-12-31"],
      "is not two days such as",
    ],
    [
      ["a.md", "a.csv", "--period", "2024-12-31..2024-01-01", "--period", "2025-01-01..2025-12-31"],
      "ends before it begins",
    ],
    [["a.md", "a.csv", "--into", "x"], "two files of cases"],
    [["a.md", "a.csv", "b.csv", "c.csv", "--into", "x"], "c.csv is too many"],
    [["a.md", "a.csv", "b.csv"], "--into FOLDER"],
  ])("%j is refused in words", async (given, why) => {
    const { exit, warned } = await compare(...given);
    expect(exit).toBe(2);
    expect(warned).toContain(why);
  });

  test.skipIf(chromiumPath() === undefined)(
    "prints its page as well",
    async () => {
      const into = join(folder, "out");
      const given = [notebook(), file("a.csv", earlier), file("b.csv", later), "--into", into];
      const { exit, said } = await compare(...given, "--pdf", "--paper", "letter");
      expect(exit).toBe(0);
      expect(said).toContain("comparison.json, comparison.pdf");
      const pdf = readFileSync(join(into, "comparison.pdf"), "latin1");
      // ANSI Letter, 8.5 by 11 inches, in points.
      expect(pdf).toContain("/MediaBox [0 0 612 792]");
    },
    60_000,
  );
});
