import type { Chart } from "../../charts/chart.ts";
import type { Theme } from "../../charts/theme.ts";
import { csvText } from "../../report/csv-text.ts";

/** How much larger than on the page an image is. */
const imageScale = 2;

/** The chart as a drawing of its own, on its paper, with the type it is set in. */
export async function chartAsSvg(chart: Chart, theme: Theme): Promise<string> {
  const { chartToSvg } = await import("../../charts/to-svg.ts");
  const drawn = await chartToSvg(chart, { theme, prefix: "chart", ground: true });
  const style = `<style>${bundledFaces()}</style>`;
  return drawn.replace(/^<svg[^>]*>/, (tag) => tag + style);
}

/** The chart as an image of twice its size. */
export async function chartAsPng(chart: Chart, theme: Theme): Promise<Blob> {
  const svg = await chartAsSvg(chart, theme);
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await image.decode();
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(chart.width * imageScale);
  canvas.height = Math.round(chart.height * imageScale);
  const context = canvas.getContext("2d");
  if (context === null) throw new Error("this browser draws no images");
  context.drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((done, fail) => {
    canvas.toBlob(
      (blob) => (blob === null ? fail(new Error("no image")) : done(blob)),
      "image/png",
    );
  });
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

/** The faces of the page's sans, which are in the page: a drawing on its own has no other. */
function bundledFaces(): string {
  return [...document.styleSheets]
    .flatMap((sheet) => [...sheet.cssRules])
    .filter((rule) => rule instanceof CSSFontFaceRule && rule.cssText.includes("Source Sans"))
    .map((rule) => rule.cssText)
    .join("");
}
