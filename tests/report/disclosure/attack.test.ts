import { beforeAll, describe, expect, test } from "vitest";
import type { ReportInput } from "../../../src/report/report-input.ts";
import { reportPage } from "../../../src/report/report-page.ts";
import { sharedReport } from "../../../src/report/sharing/shared-report.ts";
import { sharedResultsJson } from "../../../src/report/sharing/shared-results.ts";
import { answeredOf, reportOf } from "./shared-notebook.ts";
import { had, type Shown, toldOf } from "./told-of-report.ts";

const threshold = 5;
const notebooks = [
  "demo",
  "yearly-audit",
  "quarterly-meeting",
  "buckle-failures",
  "surgeon-review",
];

describe.each(notebooks)("an attack on the shared report of %s", (notebook) => {
  let input: ReportInput;
  let shared: ReportInput;
  let json: Record<string, Shown>;
  beforeAll(async () => {
    input = await reportOf(`notebooks/${notebook}.md`, "data-demo/repairs.csv");
    shared = sharedReport(input, { threshold, seed: 7 });
    json = JSON.parse(sharedResultsJson(shared)).cells;
  });

  test("has no small count, by adding and subtracting or by bounds", () => {
    const system = toldOf(input, shared, json);
    expect(system.told.filter(({ isShown }) => isShown).length).toBeGreaterThan(5);
    expect(had(system, threshold)).toEqual([]);
  });

  test("has small counts where only they are left out", () => {
    const system = toldOf(input, shared, json);
    const only = system.told.map((each) => ({ ...each, isShown: each.rows.size >= threshold }));
    expect(had({ ...system, told: only }, threshold).length).toBeGreaterThan(0);
  });

  test("the page and the tables hold no small count, case, line, day or code of a person", async () => {
    const page = await reportPage(shared);
    const text = page.replace(/<style>[\s\S]*?<\/style>/, "");
    expect(text).not.toMatch(/\b20\d\d-\d\d/);
    expect(text).not.toMatch(/minuted|SHA-256|repairs\.csv|What was found in the file|\bline \d/i);
    const codes = input.cases.people.filter((code) => code.length > 1);
    for (const code of codes) expect(text).not.toMatch(new RegExp(`\\b${code}\\b`));
    for (const code of input.cases.people.filter((each) => !/^[AI]$/.test(each))) {
      const labels = shared.cells.flatMap(
        (cell) => answeredOf(cell)?.answer.table.rows.flat() ?? [],
      );
      const word = new RegExp(`(?<![\\p{L}\\p{N}])${code}(?![\\p{L}\\p{N}])`, "u");
      for (const label of [shared.title, ...labels.map((each) => each.text)]) {
        expect(label).not.toMatch(word);
      }
    }
    for (const cell of shared.cells) {
      const answered = answeredOf(cell);
      if (answered === undefined || answered.answer.question === "enough_cases") continue;
      const { columns, rows } = answered.answer.table;
      for (const row of rows) {
        const numbers = row.filter((_, at) => columns[at]?.kind === "number");
        expect(numbers.map((cell) => cell.text)).not.toContainEqual(
          expect.stringMatching(/^[1-4]$/),
        );
      }
      expect([...answered.picks]).toEqual([]);
      expect(answered.answer.figures).toEqual({});
    }
  });
});
