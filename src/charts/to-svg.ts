import type { Chart } from "./chart.ts";
import { plainText } from "./plain-text.ts";
import type { Theme } from "./theme.ts";
import { viewOf } from "./vega-engine.ts";

export interface SvgOptions {
  readonly theme: Theme;
  /** Begins every id in the drawing; letters, digits and hyphens. Differs for each on a page. */
  readonly prefix: string;
  /** Whether the theme's paper is drawn behind the chart. Default false. */
  readonly ground?: boolean;
}

/**
 * A chart as a standalone SVG image with its description as `aria-label`, in Node or a worker.
 * Texts stand as texts, in the bundled sans where the reader has it; nothing in it can be clicked.
 */
export async function chartToSvg(chart: Chart, options: SvgOptions): Promise<string> {
  const view = viewOf(chart, options.theme);
  if (options.ground) view.background(options.theme.palette.paper);
  const drawn = await view.toSVG();
  view.finalize();
  const body = drawn.slice(drawn.indexOf(">") + 1);
  return rootTag(chart) + body.replace(/<[^>]*>/g, (tag) => ownTag(tag, options.prefix));
}

function rootTag({ width, height, description }: Chart): string {
  const label = escapeAttribute(plainText(description));
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" ` +
    `viewBox="0 0 ${width} ${height}" role="img" aria-label="${label}" ` +
    `style="font-variant-numeric: tabular-nums">`
  );
}

/**
 * A tag with the prefix in its ids and references, and without roles and labels of its own: the
 * parts of an image have none. (Texts are never mistaken for tags: their `<` and `>` are escaped.)
 * Lengths are written to a thousandth of a pixel: beyond that engines differ in exp and log, and
 * the page and the command line would not draw the same bytes.
 */
function ownTag(tag: string, prefix: string): string {
  return tag
    .replace(/ (role|aria-[a-z]+)="[^"]*"/g, "")
    .replace(/ id="/g, ` id="${prefix}-`)
    .replace(/"url\(#/g, `"url(#${prefix}-`)
    .replace(/-?\d+\.\d{4,}(e-?\d+)?/g, (length) =>
      String(Math.round(Number(length) * 1000) / 1000),
    );
}

function escapeAttribute(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}
