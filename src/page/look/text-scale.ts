/** Pixels of a rem where the reader asked for no other size of text. */
const usual = 16;

let known: number | undefined;

/**
 * How much larger than usual the reader's browser sets text. Asked once a frame: each question has
 * the browser work out the styles of all that changed since the last.
 */
export function textScale(): number {
  if (known === undefined) {
    known = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / usual;
    requestAnimationFrame(() => {
      known = undefined;
    });
  }
  return known;
}

/** A length in pixels as one that grows with the text, for a style. */
export function inRem(pixels: number): string {
  return `${pixels / usual}rem`;
}
