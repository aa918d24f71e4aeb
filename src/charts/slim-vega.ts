/**
 * What the charts need of vega, and no more: a build may put this module in place of "vega".
 * Left out are the geographic, force, tree, word cloud, contour and label transforms.
 */
import { transforms } from "vega-dataflow";
import * as encodeTransforms from "vega-encode";
import * as dataTransforms from "vega-transforms";
import * as viewTransforms from "vega-view-transforms";

Object.assign(transforms, dataTransforms, viewTransforms, encodeTransforms);

export { parse } from "vega-parser";
export { textMetrics } from "vega-scenegraph";
export { hasOwnProperty, isObject, isString, stringValue } from "vega-util";
export { View } from "vega-view";
