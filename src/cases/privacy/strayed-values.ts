import type { ColumnPlan } from "../match-columns.ts";
import type { RawTable } from "../raw-table.ts";

/** Lines of which nothing is shown: what is private may stand under any heading there. */
export function linesWithheld(table: RawTable, plans: readonly ColumnPlan[]): ReadonlySet<number> {
  const hasPrivate = plans.some(
    ({ isPrivate, spec }) => isPrivate !== undefined || spec?.name === "patient",
  );
  return new Set(hasPrivate ? table.ragged.keys() : []);
}

/**
 * The table without what can have strayed from a private column: in a row with values too many or
 * too few, those as near to it as there are values too many or too few. They are emptied.
 */
export function withoutStrayed(table: RawTable, plans: readonly ColumnPlan[]): RawTable {
  const sources = plans.filter(({ isPrivate }) => isPrivate !== undefined);
  if (sources.length === 0 || table.ragged.size === 0) return table;
  const ragged = [...table.lines.entries()].flatMap(([row, line]) => {
    const extra = table.ragged.get(line)?.extra;
    return extra === undefined ? [] : [{ row, extra }];
  });
  const columns = table.columns.map((column, position) => {
    const strayed = ragged.filter(({ extra }) =>
      sources.some((source) => isBetween(position - source.position, 0, extra)),
    );
    return column.with(new Map(strayed.map(({ row }) => [row, ""])));
  });
  return { ...table, columns };
}

/** Whether a step lies on the way from `start` (not itself) to `end`, in either direction. */
function isBetween(step: number, start: number, end: number): boolean {
  return end < start ? step >= end && step < start : step > start && step <= end;
}
