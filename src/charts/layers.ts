import type { Margins } from "./chart.ts";

/**
 * Parts of vega-lite specifications. Positions are pixels from the plot's top left corner unless
 * a layer brings channels of its own. Styles are names from the theme.
 */

/** One datum of a layer. `pick` names what a click on its mark opens. */
export type Row = Readonly<Record<string, string | number | null>>;

export interface Layer {
  readonly data: { readonly values: readonly Row[] };
  readonly mark: Readonly<Record<string, unknown>>;
  readonly encoding: Readonly<Record<string, unknown>>;
}

export interface PlotSize {
  readonly width: number;
  readonly height: number;
}

/** A whole specification: layers over a plot of fixed size, nothing measured or moved by vega. */
export function layered(plot: PlotSize, margins: Margins, layers: readonly Layer[]): object {
  return {
    width: plot.width,
    height: plot.height,
    padding: margins,
    autosize: { type: "none" },
    layer: layers.filter((layer) => layer.data.values.length > 0),
  };
}

/** A channel that takes a field as pixels. */
export function pixels(field: string): object {
  return { field, type: "quantitative", scale: null, axis: null };
}

export interface TextRow {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly pick?: string | undefined;
}

/** Texts standing on their baseline at `x`, `y`. */
export function texts(
  rows: readonly TextRow[],
  style: readonly string[],
  align: "left" | "center" | "right" = "left",
): Layer {
  return {
    data: { values: values(rows) },
    mark: { type: "text", style, align, ...cursor(rows) },
    encoding: {
      x: pixels("x"),
      y: pixels("y"),
      text: { field: "text", type: "nominal" },
    },
  };
}

export interface SegmentRow {
  readonly x: number;
  readonly y: number;
  readonly x2: number;
  readonly y2: number;
  readonly pick?: string | undefined;
}

/** Straight lines. */
export function segments(rows: readonly SegmentRow[], style: readonly string[]): Layer {
  return boxLike("rule", rows, style);
}

/** Rectangles from corner to corner. */
export function boxes(rows: readonly SegmentRow[], style: readonly string[]): Layer {
  return boxLike("rect", rows, style);
}

function boxLike(type: string, rows: readonly SegmentRow[], style: readonly string[]): Layer {
  return {
    data: { values: values(rows) },
    mark: { type, style, ...cursor(rows) },
    encoding: { x: pixels("x"), y: pixels("y"), x2: { field: "x2" }, y2: { field: "y2" } },
  };
}

export interface SymbolRow {
  readonly x: number;
  readonly y: number;
  readonly pick?: string | undefined;
}

/** Symbols of one shape and area (square pixels), filled unless said. */
export function symbols(
  rows: readonly SymbolRow[],
  shape: { readonly shape: string; readonly size: number; readonly filled?: boolean },
  style: readonly string[],
): Layer {
  return {
    data: { values: values(rows) },
    mark: { type: "point", filled: true, ...shape, style, ...cursor(rows) },
    encoding: { x: pixels("x"), y: pixels("y") },
  };
}

/** Rows as data: what is undefined is left out, so that the specification is plain JSON. */
function values(rows: readonly object[]): readonly Row[] {
  return rows.map((row) =>
    Object.fromEntries(Object.entries(row).filter(([, value]) => value !== undefined)),
  );
}

function cursor(rows: readonly { readonly pick?: string | undefined }[]): object {
  return rows.some((row) => row.pick !== undefined) ? { cursor: "pointer" } : {};
}
