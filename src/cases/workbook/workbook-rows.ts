import { dayFromParts, formatDay } from "../calendar-day.ts";
import type { SheetValue, Workbook } from "./open-workbook.ts";

/**
 * The rows of a sheet as text, from its first row on; undefined where there is no such sheet. Days
 * are written as 2025-03-31, yes and no as such, and everything else as it stands, on one line.
 */
export function workbookRows(
  { sheets }: Workbook,
  name: string,
): readonly (readonly string[])[] | undefined {
  const rows = sheets.find((sheet) => sheet.name === name)?.rows;
  if (rows === undefined) return undefined;
  const isLocal = localColumns(rows);
  return rows.map((row) => row.map((value, column) => textOf(value, isLocal.has(column))));
}

function textOf(value: SheetValue, isLocal: boolean): string {
  if (value === null) return "";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (!(value instanceof Date)) return onOneLine(value);
  return dayOrTime(value.getTime() - (isLocal ? value.getTimezoneOffset() * 60_000 : 0));
}

/**
 * Columns whose days are midnight here and not in Greenwich. A day counted in days is midnight in
 * Greenwich; one written in ISO 8601 without a zone was read as of this place.
 */
function localColumns(rows: readonly (readonly SheetValue[])[]): ReadonlySet<number> {
  const local = new Set<number>();
  const others = new Set<number>();
  for (const row of rows) {
    row.forEach((value, column) => {
      if (!(value instanceof Date) || Number.isNaN(value.getTime())) return;
      if (!isMidnight(value, value.getTimezoneOffset())) others.add(column);
      else if (!isMidnight(value, 0)) local.add(column);
    });
  }
  return new Set([...local].filter((column) => !others.has(column)));
}

function isMidnight(value: Date, offsetMinutes: number): boolean {
  return (value.getTime() - offsetMinutes * 60_000) % millisecondsADay === 0;
}

/** Days of a workbook begin in 1900; what lies before is a time of day or a length of time. */
const firstDay = dayFromParts(1900, 3, 1)!;
const zero = dayFromParts(1899, 12, 30)!;
const millisecondsADay = 86_400_000;

function dayOrTime(milliseconds: number): string {
  if (Number.isNaN(milliseconds)) return "";
  const day = Math.floor(milliseconds / millisecondsADay);
  if (day >= firstDay) return formatDay(day);
  const minutes = Math.round((milliseconds - zero * millisecondsADay) / 60_000);
  const [hour, minute] = [Math.floor(minutes / 60), minutes % 60];
  return `${String(hour).padStart(2, "0")}:${String(minute).padStart(2, "0")}`;
}

/** A row of the sheet is a line of the file, so that lines are counted as the sheet counts rows. */
function onOneLine(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is replaced
  return text.replaceAll(/[\0-\x1f\x7f\u2028\u2029]+/g, " ").trim();
}
