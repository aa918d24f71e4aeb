import type { Layer } from "./layers.ts";

/** Where a rose stands: its centre, the radius of its longest wedge, and the count that has it. */
export interface RosePlace {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly most: number;
}

/** A part of a ring: angles in radians clockwise from the top, radii in pixels. */
export interface RingPart {
  readonly from: number;
  readonly to: number;
  readonly inner: number;
  readonly outer: number;
  readonly pick?: string | undefined;
}

const hourAngle = Math.PI / 6;

/** A wedge of one hour, half an hour to either side, with an area as large as its count. */
export function wedge(
  { radius, most }: RosePlace,
  {
    hour,
    count,
    pick,
  }: { readonly hour: number; readonly count: number; readonly pick?: string | undefined },
): RingPart {
  const middle = (hour % 12) * hourAngle;
  const outer = radius * Math.sqrt(count / most);
  return { from: middle - hourAngle / 2, to: middle + hourAngle / 2, inner: 0, outer, pick };
}

/** A thin arc outside the wedges over some hours, both ends among them. */
export function circleArc(
  { radius }: RosePlace,
  { from, to }: { readonly from: number; readonly to: number },
): RingPart {
  const hours = (to - from + 24) % 12;
  const start = from * hourAngle - hourAngle / 2;
  const inner = radius + 6;
  return { from: start, to: start + (hours + 1) * hourAngle, inner, outer: inner + 2 };
}

/** Parts of rings around one centre. */
export function arcs(
  { x, y }: Pick<RosePlace, "x" | "y">,
  parts: readonly RingPart[],
  style: readonly string[],
): Layer {
  const number = (field: string): object => ({ field, type: "quantitative", scale: null });
  const values = parts.map(({ pick, ...part }) => (pick === undefined ? part : { ...part, pick }));
  return {
    data: { values },
    mark: {
      type: "arc",
      style,
      x,
      y,
      ...(parts.some(({ pick }) => pick !== undefined) ? { cursor: "pointer" } : {}),
    },
    encoding: {
      theta: { ...number("from"), stack: null },
      theta2: { field: "to" },
      radius: { ...number("inner"), stack: null },
      radius2: { field: "outer" },
    },
  };
}
