import { type Layer, pixels } from "./layers.ts";

/** A line through points in the order given, in pixels from the plot's top left corner. */
export function lineLayer(
  points: readonly { readonly x: number; readonly y: number }[],
  style: readonly string[],
  interpolate: "linear" | "step-after" = "linear",
): Layer {
  return {
    data: { values: points.length < 2 ? [] : points.map(({ x, y }) => ({ x, y })) },
    mark: { type: "line", interpolate, style },
    encoding: { x: pixels("x"), y: pixels("y"), order: { value: null } },
  };
}
