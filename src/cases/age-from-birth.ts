import type { Problem } from "../problem/problem.ts";
import { dayFromParts, partsOfDay, wholeYearsBetween } from "./calendar-day.ts";
import { fieldNamed } from "./dictionary.ts";
import type { ColumnPlan } from "./match-columns.ts";
import { isMissing } from "./missing-value.ts";
import type { RawTable } from "./raw-table.ts";
import { type CheckedColumn, columnOf } from "./read-columns.ts";
import type { CellValue } from "./table.ts";
import type { DayOrder } from "./values/column-reading.ts";
import { readDays } from "./values/read-days.ts";

export interface WithAge {
  readonly columns: readonly CheckedColumn[];
  readonly problems: readonly Problem[];
}

/** Where dates of birth stand, and the order in which the file writes its other days. */
export interface BirthsWritten {
  readonly table: RawTable;
  readonly plans: readonly ColumnPlan[];
  readonly dayOrder: DayOrder | undefined;
}

/**
 * Age in completed years at the operation, from a date of birth that is itself dropped. Only
 * where the file has no age of its own.
 */
export function withAgeFromBirth(
  columns: readonly CheckedColumn[],
  { table, plans, dayOrder }: BirthsWritten,
): WithAge {
  const birth = plans.find(({ isPrivate }) => isPrivate === "date of birth");
  const operated = columns.find(({ name }) => name === "operation_date");
  const hasAge = columns.some(({ name }) => name === "age");
  if (birth === undefined || operated === undefined || hasAge) return { columns, problems: [] };
  const written = table.columns[birth.position]!;
  const beside = dayOrder && { dayOrderBeside: dayOrder };
  const births = readDays(written, { heading: "", delimiter: ",", ...beside }).values;
  const ages = births.map((born, row) => ageAt(born, operated.values[row] ?? null));
  const known = written.rowsWhere((value) => !isMissing(value));
  const unread = known.filter((row) => births[row] === null).length;
  const heading = table.headings[birth.position]!;
  return {
    columns: [...columns, columnOf(fieldNamed("age")!, ages)],
    problems: [ageMade(heading), ...(unread > 0 ? [birthsUnread(heading, unread)] : [])],
  };
}

const oldest = 115;

function ageAt(born: CellValue, operated: CellValue): number | null {
  if (typeof born !== "number" || typeof operated !== "number") return null;
  const age = wholeYearsBetween(born <= operated ? born : aCenturyBefore(born), operated);
  return age >= 0 && age <= oldest ? age : null;
}

/** A year of two digits was read as of this century: 48 is 1948 for someone operated on in 2025. */
function aCenturyBefore(day: number): number {
  const { year, month, day: dayOfMonth } = partsOfDay(day);
  return dayFromParts(year - 100, month, dayOfMonth) ?? dayFromParts(year - 100, month, 28)!;
}

function ageMade(heading: string): Problem {
  return {
    code: "age-from-birth",
    severity: "note",
    place: { field: heading },
    message: "age at the operation was worked out from this column.",
  };
}

function birthsUnread(heading: string, unread: number): Problem {
  return {
    code: "birth-unread",
    severity: "query",
    place: { field: heading },
    message: `${unread === 1 ? "1 date" : `${unread} dates`} in this column could not be read, and the age is missing there.`,
    expected: "days such as 1950-03-31, or a column of ages",
    remedy: "give the age in the file instead of the date of birth",
  };
}
