import { type ChartRoom, layChart } from "../../charts/chart-request.ts";
import { paperTheme } from "../../charts/theme.ts";
import { chartToSvg } from "../../charts/to-svg.ts";
import type { Answer } from "../../questions/answer.ts";

/** A chart as a picture of its own, with the numbers that a file needs to place it. */
export interface ChartPicture {
  readonly svg: string;
  /** In pixels. */
  readonly width: number;
  readonly height: number;
  /** What it shows, in words. */
  readonly description: string;
}

/**
 * A PNG of an SVG drawing at a scale, or undefined where nothing here can draw one. Node and the
 * page each draw in their own way, so who makes files says how.
 */
export type DrawPng = (svg: string, scale: number) => Promise<Uint8Array | undefined>;

/** The answer's chart laid out for a room in pixels, on paper; undefined where it has none. */
export async function chartPicture(
  { chart: request }: Answer,
  { name, ...room }: ChartRoom & { readonly name: string },
): Promise<ChartPicture | undefined> {
  if (request === undefined) return undefined;
  const chart = layChart(request, room);
  const svg = await chartToSvg(chart, { theme: paperTheme, prefix: name, ground: true });
  const { height, description } = chart;
  return { svg, width: chart.width, height, description };
}
