import { textWidth, wrapText } from "../../charts/text-width.ts";

export interface Lettering {
  /** Size of the letters. */
  readonly points: number;
  readonly isBold?: boolean;
  /** The face of the titles. */
  readonly isSerif?: boolean;
}

const pointsInAnInch = 72;
/** The distance of lines over the size of letters; written into the slides, so the same in any face. */
export const lineSpacing = 1.25;
/**
 * Where the faces of the slides are not installed another is taken: room for one as wide as Arial,
 * whose letters are up to 1.14 times as wide as those of the bundled sans (measured).
 */
const ease = 1.15;
/** Widths are known of the sans alone: the serif, both semibold, is at most so much wider (measured). */
const serifOverSans = 1.12;

/** The height of a number of lines, inches. */
export function linesHeight(count: number, points: number): number {
  return (count * points * lineSpacing) / pointsInAnInch;
}

/** How many lines of a size fit in a height in inches. */
export function linesWithin(height: number, points: number): number {
  return Math.floor((height + 1e-9) / linesHeight(1, points));
}

/** The width of a text on one line, inches. */
export function textInches(text: string, lettering: Lettering): number {
  return textWidth(text, style(lettering)) / pointsInAnInch;
}

/**
 * The text as lines that fit in a width in inches, each with the space it ends in, so that joined
 * they are the text; a word that does not fit on a line is broken.
 */
export function linesOf(text: string, width: number, lettering: Lettering): readonly string[] {
  const room = { ...style(lettering), width: width * pointsInAnInch };
  const lines = text.split("\n").flatMap((line) => wrapText(line, Number.POSITIVE_INFINITY, room));
  let at = 0;
  return lines.map((line) => {
    const start = at;
    at += line.length;
    if (text[at] === " " || text[at] === "\n") at += 1;
    return text.slice(start, at);
  });
}

/** The width of the longest word, inches. */
export function longestWord(text: string, lettering: Lettering): number {
  return Math.max(...text.split(/[ \n]/).map((word) => textInches(word, lettering)));
}

function style({ points, isBold, isSerif }: Lettering) {
  const wider = isSerif === true ? serifOverSans : 1;
  return { size: points * ease * wider, weight: isBold === true ? 600 : 400 };
}
