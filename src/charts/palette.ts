/**
 * The colours of Holdfast, for the charts and the page alike. `failed` and `attached` mean that
 * and are used for nothing else; groups differ by hue, by dash and by a label at the line's end.
 *
 * Text colours and group hues reach a contrast of 4.5:1 on their paper (WCAG 2.2, 1.4.3), and any
 * two group hues stay apart for the colour-blind (simulated after Machado, Oliveira and Fernandes,
 * IEEE Trans Vis Comput Graph 2009;15:1291); the tests compute both.
 */
export interface Palette {
  /** The ground of a page. */
  readonly paper: string;
  /** The ground of a chosen cell and of boxes. */
  readonly leaf: string;
  /** Text and strong lines. */
  readonly ink: string;
  /** Secondary text: axis labels, notes. */
  readonly muted: string;
  readonly hairline: string;
  /** Iodine brown-orange: failed, and nothing else. */
  readonly failed: string;
  /** Deep blue-green: attached, and nothing else. */
  readonly attached: string;
  /** Blue, green, purple, ochre, rose, slate: the hues of groups, in order of use. */
  readonly groups: readonly string[];
}

export const paperPalette: Palette = {
  paper: "#f7f4ec",
  leaf: "#fffefb",
  ink: "#1d2833",
  muted: "#686556",
  hairline: "#dbd6c6",
  failed: "#a4481a",
  attached: "#0b5f58",
  groups: ["#1f63a8", "#4f7a3c", "#54306b", "#6e4d0a", "#b8407c", "#27333a"],
};

/** For a projector in a darkened room. */
export const darkPalette: Palette = {
  paper: "#171c22",
  leaf: "#1f262e",
  ink: "#f1ecdf",
  muted: "#b3ae9c",
  hairline: "#3a424a",
  failed: "#f08a4b",
  attached: "#3fbfae",
  groups: ["#4a9ee0", "#9ad98b", "#d5b8f2", "#f6cd66", "#e8648a", "#dcebec"],
};

/** Dash patterns of groups, in order of use: solid, dashed, dotted, dash-dot, long dash. */
export const groupDashes: readonly (readonly number[])[] = [
  [],
  [6, 3],
  [2, 2.5],
  [9, 3, 2, 3],
  [13, 4],
];
