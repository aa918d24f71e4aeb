import { type CellValue, columnNamed, type Table, withColumns } from "../cases/table.ts";

/**
 * The last acuity that any operation of the eye records, beside the table of eyes: as logMAR, as
 * written, and the day it was measured (that of the last visit where no day of its own is given).
 * The columns of the primary repair hold only what was measured before the next operation. A
 * table of cases without later acuities is left as it is.
 */
export function withLastAcuity(
  eyes: Table,
  cases: Table,
  rowsOfEyes: readonly (readonly number[])[],
): Table {
  const logMar = columnNamed(cases, "acuity_after");
  if (logMar === undefined) return eyes;
  const at = (field: string, row: number | undefined): CellValue =>
    row === undefined ? null : (columnNamed(cases, field)?.values[row] ?? null);
  const rows = rowsOfEyes.map((own) =>
    own.findLast(
      (row) => at("acuity_after", row) !== null || at("acuity_after_written", row) !== null,
    ),
  );
  return withColumns(eyes, [
    {
      name: "last_acuity",
      label: "last acuity",
      kind: "acuity",
      unit: "logMAR",
      values: rows.map((row) => at("acuity_after", row)),
    },
    {
      name: "last_acuity_written",
      label: "last acuity, as written",
      kind: "text",
      values: rows.map((row) => at("acuity_after_written", row)),
    },
    {
      name: "last_acuity_date",
      label: "day of the last acuity",
      kind: "day",
      values: rows.map((row) => at("acuity_after_date", row) ?? at("last_seen_date", row)),
    },
  ]);
}
