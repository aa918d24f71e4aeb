import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { generateDemo } from "../../../data-demo/generate.ts";
import type { ReportInput } from "../../../src/report/report-input.ts";
import { reportPage } from "../../../src/report/report-page.ts";
import { sharedReport } from "../../../src/report/sharing/shared-report.ts";
import { sharedResultsJson } from "../../../src/report/sharing/shared-results.ts";
import type { Behind } from "./attack.ts";
import { patientsBy } from "./patients-by.ts";
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

const demoFile = readFileSync("data-demo/repairs.csv");

/** The invented cases, and others of the same unit drawn by another seed. */
const files = [
  ...notebooks.map((notebook) => ({ notebook, of: "the demo", bytes: demoFile })),
  ...(
    [
      ["demo", 4],
      ["demo", 7],
      ["yearly-audit", 2],
      ["quarterly-meeting", 3],
      ["quarterly-meeting", 7],
      ["buckle-failures", 7],
      ["surgeon-review", 1],
    ] as const
  ).map(([notebook, seed]) => ({
    ...{ notebook, of: `cases drawn by seed ${seed}` },
    bytes: new TextEncoder().encode(generateDemo(seed).csv),
  })),
];

describe.each(files)(
  "an attack on the shared report of $notebook over $of",
  ({ notebook, bytes }) => {
    const behind = patientsBy(bytes);
    let input: ReportInput;
    let shared: ReportInput;
    let json: Record<string, Shown>;
    beforeAll(async () => {
      input = await reportOf(`notebooks/${notebook}.md`, new Uint8Array(bytes));
      shared = sharedReport(input, { threshold, seed: 7 });
      json = JSON.parse(sharedResultsJson(shared)).cells;
    });

    test("has no small count, by adding and subtracting or by bounds", () => {
      const system = toldOf(input, shared, json);
      expect(system.told.filter(({ isShown }) => isShown).length).toBeGreaterThan(5);
      expect(had(system, threshold, behind)).toEqual([]);
    });

    test("has small counts where only they are left out", () => {
      const system = toldOf(input, shared, json);
      const only = system.told.map((each) => ({ ...each, isShown: each.rows.size >= threshold }));
      expect(had({ ...system, told: only }, threshold, behind).length).toBeGreaterThan(0);
    });

    test("the page and the tables hold no small count, case, line, day or code of a person", async () => {
      const page = await reportPage(shared);
      const text = page.replace(/<style>[\s\S]*?<\/style>/, "");
      expect(text).toContain(
        "No count from 1 to 4 is shown, in eyes or in the patients they belong",
      );
      expect(text).not.toMatch(/\b20\d\d-\d\d/);
      expect(text).not.toMatch(
        /minuted|SHA-256|repairs\.csv|What was found in the file|\bline \d/i,
      );
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
  },
);

test("an attack that counts patients has none where each gives many eyes", async () => {
  const input = await reportOf("notebooks/demo.md", new Uint8Array(demoFile));
  const ofFile = new TextDecoder().decode(demoFile).split(/\r?\n/);
  const { patientOf = new Map<number, string>(), ...cases } = input.cases;
  expect(patientOf.size).toBeGreaterThan(500);
  const pairs = [...patientOf].map(([line, patient]) => {
    return `${ofFile[line - 1]?.split(",")[1]} ${patient}`;
  });
  expect(new Set(pairs).size).toBe(new Set(patientOf.values()).size);
  const fivePatients = new Map([...patientOf.keys()].map((line) => [line, `P${line % 5}`]));
  const behind: Behind = (rows) => new Set([...rows].map((line) => line % 5)).size;
  const attacked = (of: ReportInput["cases"]) => {
    const shared = sharedReport({ ...input, cases: of }, { threshold, seed: 7 });
    const json = JSON.parse(sharedResultsJson(shared)).cells;
    return had(toldOf(input, shared, json), threshold, behind);
  };
  expect(attacked({ ...cases, patientOf: fivePatients })).toEqual([]);
  expect(attacked(cases).length).toBeGreaterThan(0);
});
