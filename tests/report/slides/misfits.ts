import { textWidth } from "../../../src/charts/text-width.ts";
import type { ParsedParagraph, ParsedShape } from "./parsed-slides.ts";

/** A wide sheet, 16 to 9, inches. */
const sheet = { width: 13.333, height: 7.5 };
/**
 * Where the slides' faces are not installed: the letters of Arial are up to 1.133 times as wide as
 * those of the bundled sans, Source Serif is 1.1 times as wide (both semibold). Measured in a
 * browser over sentences of the slides.
 */
const widerThanSans = (face: string) => (face.includes("Serif") ? 1.1 : 1.133);
const slack = 0.002;

/** What does not fit on a slide, in words; nothing where all does. */
export function misfits(shapes: readonly ParsedShape[]): string[] {
  return [
    ...shapes.flatMap((shape) => (isOnSheet(shape) ? [] : [`${nameOf(shape)} leaves the slide`])),
    ...overlaps(shapes),
    ...shapes.flatMap(textMisfits),
    ...shapes.flatMap(tableMisfits),
  ];
}

function isOnSheet({ x, y, width, height }: ParsedShape): boolean {
  const isSized = width > 0 && height > 0;
  const isBegun = x >= 0 && y >= 0;
  return isSized && isBegun && x + width <= sheet.width && y + height <= sheet.height;
}

function overlaps(shapes: readonly ParsedShape[]): string[] {
  return shapes.flatMap((one, at) =>
    shapes
      .slice(at + 1)
      .filter((other) => doOverlap(one, other))
      .map((other) => `${nameOf(one)} overlaps ${nameOf(other)}`),
  );
}

function doOverlap(one: ParsedShape, other: ParsedShape): boolean {
  const across = Math.min(one.x + one.width, other.x + other.width) - Math.max(one.x, other.x);
  const down = Math.min(one.y + one.height, other.y + other.height) - Math.max(one.y, other.y);
  return across > slack && down > slack;
}

function textMisfits(shape: ParsedShape): string[] {
  const needed = heightOf(shape.paragraphs, shape.width);
  return needed <= shape.height + slack
    ? []
    : [`${nameOf(shape)} needs ${needed.toFixed(2)} of ${shape.height.toFixed(2)} inches`];
}

function tableMisfits(shape: ParsedShape): string[] {
  if (shape.kind !== "table") return [];
  const rows = shape.rows.flatMap(({ height, cells }, row) =>
    cells.flatMap(({ paragraphs, margins: [left, right, top, bottom] }, at) => {
      const width = (shape.columnWidths[at] ?? 0) - left - right;
      const needed = heightOf(paragraphs, width) + top + bottom;
      return needed <= height + slack ? [] : [`row ${row}, "${paragraphs[0]?.text}" is cut`];
    }),
  );
  const across = sum(shape.columnWidths);
  const down = sum(shape.rows.map(({ height }) => height));
  return [
    ...rows,
    ...(across > shape.width + slack ? ["columns wider than their table"] : []),
    ...(down > shape.height + slack ? ["rows higher than their table"] : []),
  ];
}

/** In inches: lines broken between words as soon as one is full. */
function heightOf(paragraphs: readonly ParsedParagraph[], width: number): number {
  return sum(paragraphs.map((each) => (lineCount(each, width) * each.lineSpacing) / 72));
}

function lineCount({ text, points, isBold, face }: ParsedParagraph, width: number): number {
  const size = points * widerThanSans(face);
  const inches = (word: string) => textWidth(word, { size, weight: isBold ? 600 : 400 }) / 72;
  let lines = 1;
  let filled = 0;
  for (const word of text.split(" ")) {
    const long = inches(word);
    const joined = filled === 0 ? long : filled + inches(" ") + long;
    if (joined <= width || filled === 0) filled = joined;
    else {
      lines += 1;
      filled = long;
    }
    // A word that is longer than a line goes on over as many as it takes.
    while (filled > width) {
      lines += 1;
      filled -= width;
    }
  }
  return text === "" ? 0 : lines;
}

function nameOf({ kind, paragraphs }: ParsedShape): string {
  return paragraphs.length === 0 ? kind : `"${paragraphs[0]?.text.slice(0, 40)}"`;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, each) => total + each, 0);
}
