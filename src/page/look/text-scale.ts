/** Pixels of a rem where the reader asked for no other size of text. */
const usual = 16;

/** How much larger than usual the reader's browser sets text. */
export function textScale(): number {
  return Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / usual;
}

/** A length in pixels as one that grows with the text, for a style. */
export function inRem(pixels: number): string {
  return `${pixels / usual}rem`;
}
