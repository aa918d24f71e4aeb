import type { Answered } from "../../../src/questions/answer.ts";
import type { ReportInput } from "../../../src/report/report-input.ts";
import { type Behind, type Division, isSubset, pinned, recovered, type Told } from "./attack.ts";
import { answeredOf } from "./shared-notebook.ts";

export interface Shown {
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
      const atRisk = rowsOf(answered, chart.curves.atRiskPicks?.[at]?.[column]);
      const followed = new Set([...atRisk, ...failed]);
      const lost = [...rowsOf(answered, group.pick)].filter((row) => !followed.has(row));
      return [
        { key: `${name} lost by ${day} ${group.label}`, rows: new Set(lost), isShown: false },
        { key: `${name} at risk ${day} ${group.label}`, rows: atRisk, isShown: isDrawn },
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
export function toldOf(input: ReportInput, shared: ReportInput, json: Record<string, Shown>) {
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
export function had(
  { told, divisions }: ReturnType<typeof toldOf>,
  threshold: number,
  behind?: Behind,
): string[] {
  const isSmall = (rows: ReadonlySet<number>) => (behind?.(rows) ?? rows.size) < threshold;
  const small = new Set(told.flatMap(({ key, rows }) => (isSmall(rows) ? [key] : [])));
  return [
    ...recovered(told, threshold, behind).filter((key) => small.has(key) || key.includes(" less ")),
    ...pinned(told, divisions, { threshold, ...(behind && { behind }) }),
  ];
}
