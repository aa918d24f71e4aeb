import type { Answer, AnswerCell, AnswerColumn, AnswerTable } from "../../questions/answer.ts";
import { type CellNature, labelColumns } from "./cell-nature.ts";
import { curvesOf, failedKey, landmarkDays } from "./curve-counts.ts";
import { patientCount } from "./patient-count.ts";
import type { PickedRows } from "./picked-rows.ts";
import { sharingOf } from "./question-sharing.ts";
import { keysBehindRow } from "./table-counts.ts";

export interface TableToShare {
  readonly name: string;
  readonly answer: Answer;
  readonly natures: readonly (readonly CellNature[])[];
  readonly rowsOf: PickedRows;
  readonly open: ReadonlySet<string>;
  readonly threshold: number;
  /** The patient of a row, which is known by its line. */
  readonly patientOf: ReadonlyMap<number, string>;
  /** A label or a heading as it may be shown. */
  label(text: string, heading: string): string;
}

export interface SharedTable {
  readonly table: AnswerTable;
  /** Rows of which nothing is withheld, by position. */
  readonly whole: ReadonlySet<number>;
}

/** What stands in place of a number that is not shown, small or not. */
export const withheldText = "withheld";

/** Fewer patients than the threshold: who they are is not said either. */
const smallGroup = "a small group";

/** The table with everything that may not be shown withheld, and other numbers as they are read. */
export function sharedTable(given: TableToShare): SharedTable {
  const { table } = given.answer;
  const isShown = table.rows.map((row, at) => row.map((_, column) => isOpen(given, at, column)));
  const whole = new Set(isShown.flatMap((row, at) => (row.every((shown) => shown) ? [at] : [])));
  const small = smallColumns(given);
  return {
    whole,
    table: {
      columns: table.columns.map((column, at) => sharedColumn(given, column, small.has(at))),
      rows: table.rows.map((row, at) => {
        const isSmall = patientsOfRow(given, at) < given.threshold;
        return row.map((cell, column) => {
          if (given.natures[at]?.[column]?.is === "label") {
            return sharedLabel(given, cell, { column, isSmall });
          }
          return isShown[at]?.[column] === true ? asRead(given, cell) : withheld;
        });
      }),
    },
  };
}

const withheld: AnswerCell = { text: withheldText, value: null };

function isOpen(given: TableToShare, row: number, column: number): boolean {
  const nature = given.natures[row]?.[column];
  switch (nature?.is) {
    case "label":
    case "none":
      return true;
    case "count":
      return given.open.has(`${given.name}/${nature.pick}`);
    case "figure":
      return isFigureOpen(given, row, column);
    default:
      return sharingOf(given.answer.question) === "no cases";
  }
}

function isFigureOpen(given: TableToShare, row: number, column: number): boolean {
  switch (sharingOf(given.answer.question)) {
    case "no cases":
      return true;
    case "figures by row":
      return areCountsOpen(given, row);
    case "figures of a whole table":
      return given.natures.every((_, each) => areCountsOpen(given, each));
    case "curve":
      return areCountsOpen(given, row) && isFailedByOpen(given, row, column);
    default:
      return false;
  }
}

/** Whether all counts of the row and all totals that its figures are shares of may be shown. */
function areCountsOpen({ name, natures, open }: TableToShare, row: number): boolean {
  const isLoose = (natures[row] ?? []).some(({ is }) => is === "loose count");
  const keys = keysBehindRow(name, natures, row);
  return !isLoose && keys.length > 0 && keys.every((key) => open.has(key));
}

function isFailedByOpen({ name, answer, open }: TableToShare, row: number, column: number) {
  const day = landmarkDays(answer)[column];
  const label = answer.table.rows[row]?.[0]?.text;
  const group = curvesOf(answer)?.groups.find((each) => each.label === label);
  if (day === undefined || group === undefined) return false;
  const isNone = !group.steps.some(({ time }) => time <= day);
  return isNone || open.has(failedKey(name, group.label, day));
}

function sharedColumn(given: TableToShare, column: AnswerColumn, isSmall: boolean): AnswerColumn {
  const label = isSmall ? smallGroup : given.label(column.label, "");
  return { ...column, label };
}

/** Columns of counts of a group that is small as a whole, and of its shares beside them. */
function smallColumns({
  answer,
  natures,
  rowsOf,
  threshold,
  patientOf,
}: TableToShare): ReadonlySet<number> {
  const { columns } = answer.table;
  if (answer.question !== "count_by") return new Set();
  const small = columns.flatMap((_, column) => {
    const sizes = natures.flatMap((row) => {
      const cell = row[column];
      return cell?.is === "count" ? [patientCount(rowsOf(cell.pick), patientOf)] : [];
    });
    return sizes.length > 0 && Math.max(...sizes) < threshold ? [column] : [];
  });
  const names = small.map((column) => columns[column]?.label ?? "");
  return new Set([
    ...small,
    ...columns.flatMap(({ label }, at) =>
      names.some((name) => label.startsWith(`${name}, `)) ? [at] : [],
    ),
  ]);
}

/** The most patients that a count of this row holds; Infinity where it has no count. */
function patientsOfRow({ natures, rowsOf, patientOf }: TableToShare, row: number): number {
  const sizes = (natures[row] ?? []).flatMap((cell) =>
    cell.is === "count" ? [patientCount(rowsOf(cell.pick), patientOf)] : [],
  );
  return sizes.length === 0 ? Number.POSITIVE_INFINITY : Math.max(...sizes);
}

function sharedLabel(
  given: TableToShare,
  cell: AnswerCell,
  { column, isSmall }: { readonly column: number; readonly isSmall: boolean },
): AnswerCell {
  const { table } = given.answer;
  const isLast = column === labelColumns(table) - 1;
  const text =
    isSmall && isLast ? smallGroup : given.label(cell.text, table.columns[column]?.label ?? "");
  return { text, value: text };
}

/** Three decimals and no way to the rows: what is read on the page can be read from a file. */
function asRead(given: TableToShare, { text, value, limits, mark }: AnswerCell): AnswerCell {
  return {
    text: given.label(text, ""),
    value:
      typeof value === "string" ? given.label(value, "") : value === null ? null : rounded(value),
    ...(limits === undefined
      ? {}
      : { limits: { lower: rounded(limits.lower), upper: rounded(limits.upper) } }),
    ...(mark === undefined ? {} : { mark }),
  };
}

function rounded(value: number): number {
  return Number.isFinite(value) ? Math.round(value * 1000) / 1000 : value;
}
