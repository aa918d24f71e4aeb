import type { Chart } from "../../charts/chart.ts";
import type { Theme } from "../../charts/theme.ts";
import { csvText } from "../../report/csv-text.ts";
import { inOwnType, pngOf } from "./draw-png.ts";

/** How much larger than on the page an image is. */
const imageScale = 2;

/** The chart as a drawing of its own, on its paper, with the type it is set in. */
export async function chartAsSvg(chart: Chart, theme: Theme): Promise<string> {
  const { chartToSvg } = await import("../../charts/to-svg.ts");
  return inOwnType(await chartToSvg(chart, { theme, prefix: "chart", ground: true }));
}

/** The chart as an image of twice its size. */
export async function chartAsPng(chart: Chart, theme: Theme): Promise<Blob> {
  const { chartToSvg } = await import("../../charts/to-svg.ts");
  return pngOf(await chartToSvg(chart, { theme, prefix: "chart", ground: true }), imageScale);
}

/** The numbers drawn, unrounded, under their headings; safe to open in a spreadsheet. */
export function chartAsCsv({ columns, data }: Chart): string {
  return csvText(rowsOf({ columns, data }));
}

/** The same, as columns that paste into a table. */
export function chartAsTabs(chart: Pick<Chart, "columns" | "data">): string {
  return rowsOf(chart)
    .map((row) => row.map(pasted).join("\t"))
    .join("\n");
}

function rowsOf({ columns, data }: Pick<Chart, "columns" | "data">): (string | number)[][] {
  return [
    columns.map(({ label }) => label),
    ...data.map((row) => columns.map(({ field }) => row[field] ?? "")),
  ];
}

/** What a spreadsheet would take for a formula is a text, as in the CSV. */
function pasted(value: string | number): string {
  if (typeof value === "number") return String(value);
  const line = value.replace(/[\t\r\n]+/g, " ");
  return /^[=+\-@]/.test(line) ? `'${line}` : line;
}
