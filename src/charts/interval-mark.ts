import type { Palette } from "./palette.ts";

/** A rate with its interval on a scale from zero: fractions 0 to 1. */
export interface IntervalMark {
  readonly rate: number;
  readonly lower: number;
  readonly upper: number;
  /** A standard, drawn as a dotted line. */
  readonly reference?: number;
  /** Where the scale ends; the same for all rows of a table. */
  readonly max: number;
}

export interface IntervalMarkLook {
  /** Pixels. */
  readonly width: number;
  /** Pixels. Default 18. */
  readonly height?: number;
  readonly palette: Palette;
  readonly tone: "failed" | "attached";
}

/**
 * One row's interval as a small SVG for a table cell, hidden from screen readers since the row
 * says its numbers. What lies beyond `max` ends at the edge.
 */
export function intervalMark(mark: IntervalMark, look: IntervalMarkLook): string {
  const { width, height = 18, palette, tone } = look;
  const inset = 4;
  const at = (rate: number): string => {
    const share = Math.min(1, Math.max(0, rate / mark.max));
    return (inset + share * (width - 2 * inset)).toFixed(2);
  };
  const middle = height / 2;
  const color = palette[tone];
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" ` +
    `viewBox="0 0 ${width} ${height}" aria-hidden="true">` +
    standardLine(mark.reference === undefined ? undefined : at(mark.reference), height, palette) +
    `<line x1="${at(mark.lower)}" x2="${at(mark.upper)}" y1="${middle}" y2="${middle}" ` +
    `stroke="${color}" stroke-width="1.5"/>` +
    `<rect x="${(Number(at(mark.rate)) - 3.5).toFixed(2)}" y="${middle - 3.5}" width="7" height="7" ` +
    `fill="${color}"/></svg>`
  );
}

function standardLine(x: string | undefined, height: number, { ink }: Palette): string {
  if (x === undefined) return "";
  return (
    `<line x1="${x}" x2="${x}" y1="0" y2="${height}" stroke="${ink}" stroke-width="1" ` +
    `stroke-dasharray="1 2"/>`
  );
}
