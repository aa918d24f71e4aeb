import type { Problem, Severity } from "../problem/problem.ts";
import type { LeftOutRow } from "./case-reading.ts";
import { CasesToCheck, type Finding } from "./checks/check.ts";
import { withoutFutureDays } from "./checks/future-days.ts";
import { queryFindings, stoppingFindings } from "./checks/run-checks.ts";
import { withCase, withOperationNumber } from "./made-columns.ts";
import type { CheckedColumn } from "./read-columns.ts";
import { placeOf, placesOf, type RowPlaces } from "./row-places.ts";
import type { UncheckedCases } from "./unchecked-cases.ts";

export interface CheckedCases extends UncheckedCases {
  readonly leftOut: readonly LeftOutRow[];
  readonly problems: readonly Problem[];
}

/**
 * Checks rows: sets aside days to come, numbers the operations of each eye, and leaves out rows
 * that are stopped. A stopped primary repair was one all the same: the next operation is number 2.
 * Only a row that says again what another says has no number of its own.
 */
export function checkCases(cases: UncheckedCases, today: number | undefined): CheckedCases {
  const { rows } = cases;
  const { columns, findings: future } = withoutFutureDays(cases.columns, today);
  const stops = stoppingFindings(new CasesToCheck(columns));
  const stopped = new Set(stops.map(({ row }) => row));
  const kept = [...rows.lines.keys()].filter((row) => !stopped.has(row));
  const keptRows = placesOf(rows, kept);
  const saidTwice = stops.filter(({ code }) => code === "same-operation-twice");
  const all = withOperationNumber(columns, new Set(saidTwice.map(({ row }) => row)));
  const numbered = stopped.size === 0 ? all : rowsIn(all, kept);
  const queries = queryFindings(new CasesToCheck(numbered));
  const rowNumbers = kept.map((row) => row + 1);
  const isTwice = queries.some(({ code }) => code === "case-twice");
  const problems = [
    ...problemsFrom(future, rows, "query"),
    ...problemsFrom(stops, rows, "stop"),
    ...problemsFrom(queries, keptRows, "query"),
  ];
  return {
    columns: withCase(numbered, rowNumbers, isTwice),
    rows: keptRows,
    leftOut: stops.map((stop) => ({ ...leftOutRow(stop, rows), ...whoseEye(columns, stop.row) })),
    problems: withoutEchoes(problems),
  };
}

function rowsIn(columns: readonly CheckedColumn[], rows: readonly number[]): CheckedColumn[] {
  return columns.map((column) => ({
    ...column,
    values: rows.map((row) => column.values[row] ?? null),
  }));
}

/** The reason is the message without its full stop. */
function leftOutRow({ row, code, message }: Finding, rows: RowPlaces): LeftOutRow {
  const { file, line } = placeOf(rows, row);
  const reason = message.replace(/\.$/, "");
  return { line, code, reason, ...(rows.files.length > 1 && { file }) };
}

function whoseEye(columns: readonly CheckedColumn[], row: number) {
  const text = (name: string): string | undefined => {
    const value = columns.find((column) => column.name === name)?.values[row];
    return typeof value === "string" ? value : undefined;
  };
  const [patient, eye] = [text("patient"), text("eye")];
  return { ...(patient === undefined ? {} : { patient }), ...(eye === undefined ? {} : { eye }) };
}

function problemsFrom(
  findings: readonly Finding[],
  rows: RowPlaces,
  severity: Severity,
): Problem[] {
  return findings.map(({ row, field, ...words }) => ({
    ...words,
    severity,
    place: { ...placeOf(rows, row), field },
  }));
}

/** Of a value that is set aside it is not said again that it is missing. */
function withoutEchoes(problems: readonly Problem[]): readonly Problem[] {
  const setAside = problems.filter(({ code }) => code === "day-in-future");
  if (setAside.length === 0) return problems;
  const places = new Set(setAside.map(({ place }) => JSON.stringify(place)));
  return problems.filter(
    ({ code, found, place }) =>
      code === "day-in-future" || found !== "" || !places.has(JSON.stringify(place)),
  );
}
