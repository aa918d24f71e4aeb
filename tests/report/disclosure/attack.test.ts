import { beforeAll, describe, expect, test } from "vitest";
import type { Answered } from "../../../src/questions/answer.ts";
import type { ReportInput } from "../../../src/report/report-input.ts";
import { reportPage } from "../../../src/report/report-page.ts";
import { sharedReport } from "../../../src/report/sharing/shared-report.ts";
import { sharedResultsJson } from "../../../src/report/sharing/shared-results.ts";
import { type Division, isSubset, pinned, recovered, type Told } from "./attack.ts";
import { answeredOf, reportOf } from "./shared-notebook.ts";

const threshold = 5;
const notebooks = [
  "demo",
  "yearly-audit",
  "quarterly-meeting",
  "buckle-failures",
  "surgeon-review",
];

interface Shown {
  readonly columns: readonly string[];
  /** Absent where the answer is not shared at all. */
  readonly rows?: readonly (readonly unknown[])[];
}

/** What each cell of a table counts, with whether the shared report says it, or lets it be read off. */
function toldOfTable(name: string, answered: Answered, shown: Shown | undefined): Told[][] {
  const kept = answered.answer.table.columns.flatMap(({ kind }, at) =>
    kind === "mark" ? [] : [at],
  );
  return answered.answer.table.rows.map((row, position) => {
    const values = shown?.rows?.[position] ?? [];
    const hasFigure = values.some((each) => typeof each === "object" && each !== null);
    return kept.flatMap((column, at) => {
      const { pick, text } = row[column] ?? { text: "" };
      const rows = rowsOf(answered, pick);
      if (pick === undefined || rows.size !== Number(text.replaceAll(",", ""))) return [];
      const isShown = hasFigure || typeof values[at] === "number";
      return [{ key: `${name} ${position}:${column}`, rows, isShown }];
    });
  });
}

function rowsOf({ picks, record }: Answered, pick: string | undefined): ReadonlySet<number> {
  const picked = pick === undefined ? undefined : picks.get(pick);
  if (picked === undefined) return new Set();
  return new Set(record.describe(picked.rows).rows.map(({ lines }) => lines[0] ?? 0));
}

/** Eyes at risk and failed so far, where a drawn curve or a landmark lets them be read off. */
function toldOfCurve(name: string, answered: Answered, shared: Answered | undefined): Told[] {
  const { chart } = answered.answer;
  if (answered.answer.question !== "attachment_curve" || chart?.draw !== "attachment curves")
    return [];
  const drawn = shared?.answer.chart;
  return chart.curves.groups.flatMap((group, at) =>
    chart.curves.atRiskTimes.flatMap((day, column) => {
      const curves = drawn?.draw === "attachment curves" ? drawn.curves : undefined;
      const isDrawn =
        curves?.atRiskTimes.includes(day) === true &&
        curves.groups.some(({ label }) => label === group.label);
      const failed = group.steps
        .filter(({ time }) => time <= day)
        .flatMap(({ pick }) => [...rowsOf(answered, pick)]);
      return [
        {
          key: `${name} at risk ${day} ${group.label}`,
          rows: rowsOf(answered, chart.curves.atRiskPicks?.[at]?.[column]),
          isShown: isDrawn,
        },
        {
          key: `${name} failed by ${day} ${group.label}`,
          rows: new Set(failed),
          isShown:
            (isDrawn && day > 0) || isLandmarkShown(answered, shared, { day, label: group.label }),
        },
      ];
    }),
  );
}

function isLandmarkShown(
  answered: Answered,
  shared: Answered | undefined,
  { day, label }: { readonly day: number; readonly label: string },
): boolean {
  const months = new Map(
    [30, 61, 91, 122, 152, 183, 365].map((each) => [each, Math.round(each / 30.44)]),
  );
  const month = months.get(day);
  const column = answered.answer.table.columns.findIndex((each) =>
    new RegExp(`^${month} months? \\(`).test(each.label),
  );
  const row = answered.answer.table.rows.findIndex((each) => each[0]?.text === label);
  return shared?.answer.table.rows[row]?.[column]?.limits !== undefined;
}

/** Everything a reader could be after, with what the shared report says of it. */
function toldOf(input: ReportInput, shared: ReportInput, json: Record<string, Shown>) {
  const tables = input.cells.flatMap((cell) => {
    const answered = answeredOf(cell);
    return answered === undefined ? [] : [{ name: cell.name, answered }];
  });
  const sharedAnswers = new Map(shared.cells.map((cell) => [cell.name, answeredOf(cell)]));
  const grids = tables.map(({ name, answered }) => toldOfTable(name, answered, json[name]));
  const curves = tables.flatMap(({ name, answered }) =>
    toldOfCurve(name, answered, sharedAnswers.get(name)),
  );
  return { told: [...grids.flat(2), ...curves], divisions: grids.flatMap(divisionsOf) };
}

/** Which cells of a table divide another, down a column or along a row. */
function divisionsOf(grid: readonly (readonly Told[])[]): Division[] {
  const byColumn = new Map<string, Told[]>();
  for (const each of grid.flat()) {
    const column = each.key.split(":").at(-1) ?? "";
    byColumn.set(column, [...(byColumn.get(column) ?? []), each]);
  }
  return grid.flat().flatMap((total) =>
    [...grid, ...byColumn.values()].flatMap((family) => {
      const parts = family.filter(
        (each) => each.rows.size < total.rows.size && isSubset(each.rows, total.rows),
      );
      const sum = parts.reduce((all, { rows }) => all + rows.size, 0);
      const union = new Set(parts.flatMap(({ rows }) => [...rows]));
      const isWhole = sum === total.rows.size && union.size === sum && parts.length > 1;
      return isWhole ? [{ total: total.key, parts: parts.map(({ key }) => key) }] : [];
    }),
  );
}

/** The counts that must not be had. */
function had({ told, divisions }: ReturnType<typeof toldOf>): string[] {
  const small = new Set(told.flatMap(({ key, rows }) => (rows.size < threshold ? [key] : [])));
  return [
    ...recovered(told, threshold).filter((key) => small.has(key) || key.includes(" less ")),
    ...pinned(told, divisions, threshold),
  ];
}

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
    expect(had(system)).toEqual([]);
  });

  test("has small counts where only they are left out", () => {
    const system = toldOf(input, shared, json);
    const only = system.told.map((each) => ({ ...each, isShown: each.rows.size >= threshold }));
    expect(had({ ...system, told: only }).length).toBeGreaterThan(0);
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
