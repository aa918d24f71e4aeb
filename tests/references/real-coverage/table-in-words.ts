import type { CoverageTable } from "./coverage-table.ts";

/** The table for a reader, in percent: a row a cell, a dash where none of the series had one. */
export function inWords(
  table: CoverageTable,
  cells: readonly Record<string, number | null>[],
): string {
  const shown = (share: number | null | undefined) =>
    share === null || share === undefined ? "–" : (100 * share).toFixed(1);
  const line = (parts: readonly string[]) => `| ${parts.join(" | ")} |`;
  const places = Object.keys(table.at[0]!);
  const place = (cell: Record<string, number | null>, name: string) =>
    name === "eyes" ? String(cell[name]) : `${100 * cell[name]!}%`;
  const headings = [...table.places, ...Object.values(table.columns)];
  return `${[
    ...table.about,
    "`write-coverage-tables.ts` wrote it and says how to run it.",
    "",
    line(headings),
    line(headings.map(() => "--:")),
    ...cells.map((cell) =>
      line([
        ...places.map((name) => place(cell, name)),
        ...Object.keys(table.columns).map((name) => shown(cell[name])),
      ]),
    ),
  ].join("\n")}\n`;
}
