import { type TrueField, trueFields } from "./clean-truth.ts";

export interface DamagedCells {
  readonly cells: readonly (readonly string[])[];
  readonly unknowable: readonly { readonly row: number; readonly field: TrueField }[];
}

/** Where a value is lost, and where one is split in three, in ragged rows. */
export const lostAt = trueFields.indexOf("lens");
export const splitAt = trueFields.indexOf("technique");

/** What no reader can make anything of, by field. */
const nonsense: readonly (readonly [TrueField, string])[] = [
  ["operation_date", "soon"],
  ["last_seen_date", "2024-02-31"],
  ["age", "203"],
  ["symptom_days", "a while"],
  ["lens", "oval"],
  ["break_type", "a big one"],
  ["trauma", "perhaps"],
  ["axial_length", "241"],
  ["acuity_before", "09-Jun"],
  ["technique", "the usual"],
];

/** Puts nonsense into single cells, each in a row of its own. */
export function damageCells(
  cells: readonly (readonly string[])[],
  order: readonly TrueField[],
): DamagedCells {
  const damaged = cells.map((row) => [...row]);
  const unknowable = nonsense.map(([field, written], i) => {
    const row = 2 + i * 3;
    damaged[row]![order.indexOf(field)] = written;
    return { row, field };
  });
  return { cells: damaged, unknowable };
}

/**
 * Writes one day of a column the other way about, which can only be read so. With one in forty the
 * column has no order any more, and whatever can be read both ways cannot be known.
 */
export function slipDay(
  cells: readonly (readonly string[])[],
  order: readonly TrueField[],
): DamagedCells {
  const column = order.indexOf("operation_date");
  const parts = cells.map((written) => written[column]!.split("/").map(Number));
  const slipped = parts.findIndex(([day = 0]) => day > 12);
  const unknowable = parts.flatMap(([day = 0, month = 0], row) =>
    day <= 12 && day !== month ? [{ row, field: "operation_date" as const }] : [],
  );
  const turned = cells.map((written, row) =>
    written.map((value, at) => (row === slipped && at === column ? monthFirst(value) : value)),
  );
  return { cells: turned, unknowable };
}

function monthFirst(written: string): string {
  const [day, month, year] = written.split("/");
  return `${month}/${day}/${year}`;
}
