/** How a group's symbol is drawn, besides its hue. */
export interface GroupShape {
  readonly shape: string;
  readonly filled: boolean;
}

const shapes = [
  "circle",
  "square",
  "triangle-up",
  "diamond",
  "cross",
  "triangle-down",
  "triangle-right",
] as const;

/**
 * The symbol of the group at an index, counted from 0: filled, then hollow. Fourteen groups differ
 * where there is no colour; with the hues, which are six, forty-two do.
 */
export function groupShape(index: number): GroupShape {
  const shape = shapes[index % shapes.length] ?? "circle";
  return { shape, filled: index % (2 * shapes.length) < shapes.length };
}
