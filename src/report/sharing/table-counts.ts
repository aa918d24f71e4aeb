import type { CountedSet } from "../disclosure/counted-set.ts";
import type { AnswerToShare } from "./answer-to-share.ts";
import type { CellNature } from "./cell-nature.ts";
import { unionOf } from "./picked-rows.ts";
import { hasFigures, sharingOf } from "./question-sharing.ts";

/**
 * Every count that a table shows, and those that its rates are shares of without showing them:
 * the rows that the counts of a row, of a column and of the whole table hold together.
 */
export function tableCounts({ name, answered, natures, rowsOf }: AnswerToShare): CountedSet[] {
  const isLead = hasFigures(sharingOf(answered.answer.question));
  const shown = natures.flatMap((row, position) =>
    row.flatMap((cell, column) =>
      cell.is === "count"
        ? [{ pick: cell.pick, row: `row ${position}`, column: `column ${column}` }]
        : [],
    ),
  );
  const rows = (pick: string) => rowsOf(pick) ?? new Set<number>();
  const counts = shown.map(({ pick, row, column }) => ({
    ...{ key: `${name}/${pick}`, rows: rows(pick), isLead },
    families: [`${name}/${row}`, `${name}/${column}`],
  }));
  if (!isLead) return counts;
  const groups = new Map<string, string[]>();
  for (const { pick, row, column } of shown) {
    for (const of of [row, column, "table"]) groups.set(of, [...(groups.get(of) ?? []), pick]);
  }
  const together = [...groups].map(([of, picks]) => ({
    ...{ key: impliedKey(name, of), rows: unionOf(picks.map(rows)), isLead },
    families: [],
  }));
  return [...counts, ...together];
}

/** The key of what the counts of "row 3", "column 2" or "table" hold together. */
export function impliedKey(name: string, of: string): string {
  return `${name}/together: ${of}`;
}

/** The keys that a figure of this row can be worked back to. */
export function keysBehindRow(
  name: string,
  natures: readonly (readonly CellNature[])[],
  row: number,
): string[] {
  const columns = new Set(
    natures.flatMap((cells) => cells.flatMap(({ is }, at) => (is === "count" ? [at] : []))),
  );
  if (columns.size === 0) return [];
  const counts = (natures[row] ?? []).flatMap((cell) =>
    cell.is === "count" ? [`${name}/${cell.pick}`] : [],
  );
  const own = counts.length === 0 ? [] : [impliedKey(name, `row ${row}`)];
  const all = [...columns].map((column) => impliedKey(name, `column ${column}`));
  return [...counts, ...own, ...all, impliedKey(name, "table")];
}
