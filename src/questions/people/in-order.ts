import { columnNamed } from "../../cases/table.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";

/** Eyes in the order of operation. */
export interface OrderedEyes {
  readonly eyes: readonly number[];
  /** The day of operation of each; null where the file has none. */
  readonly days: readonly (number | null)[];
  /** Whether days told the order; else it is that of the lines of the file. */
  readonly isByDay: boolean;
  /** Eyes without their day in a file that has days: they have no place in the order. */
  readonly withoutDay: readonly number[];
}

/** In order of the day of operation; eyes of one day in the order of the file. */
export function inOrder(record: EyeRecord, eyes: readonly number[]): OrderedEyes {
  const days = columnNamed(record.table, "operation_date")?.values;
  const firstLine = (eye: number): number => record.lines[eye]?.[0] ?? eye;
  const byLine = [...eyes].sort((a, b) => firstLine(a) - firstLine(b) || a - b);
  if (days === undefined) {
    return { eyes: byLine, days: byLine.map(() => null), isByDay: false, withoutDay: [] };
  }
  const dayOf = (eye: number): number | null => {
    const day = days[eye];
    return typeof day === "number" ? day : null;
  };
  const placed = byLine.filter((eye) => dayOf(eye) !== null);
  placed.sort((a, b) => (dayOf(a) ?? 0) - (dayOf(b) ?? 0));
  return {
    eyes: placed,
    days: placed.map(dayOf),
    isByDay: true,
    withoutDay: byLine.filter((eye) => dayOf(eye) === null),
  };
}
