/** The parts of vega come without declarations of their own. */
declare module "vega-dataflow" {
  export const transforms: Record<string, unknown>;
}

declare module "vega-encode";
declare module "vega-transforms";
declare module "vega-view-transforms";

declare module "vega-parser" {
  export { parse } from "vega";
}

declare module "vega-scenegraph" {
  export const textMetrics: object;
}

declare module "vega-view" {
  export { View } from "vega";
}
