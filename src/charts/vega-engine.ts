import * as vega from "vega";
import { type Loader, parse, View } from "vega";
import { expressionInterpreter } from "vega-interpreter";
import { compile, type TopLevelSpec } from "vega-lite";
import type { Chart } from "./chart.ts";
import { textWidth } from "./text-width.ts";
import type { Theme } from "./theme.ts";

/**
 * The one door to vega. Specifications run by the interpreter, without `Function`; nothing is ever
 * loaded; texts are measured by the table of the bundled font, in Node and in the browser alike.
 */
export function viewOf(chart: Chart, theme: Theme, options: ViewPlace = {}): View {
  measureByTable();
  const compiled = compile(chart.spec as TopLevelSpec, { config: theme.config }).spec;
  const runtime = parse(compiled, undefined, { ast: true });
  return new View(runtime, {
    expr: expressionInterpreter,
    loader: noLoader,
    tooltip: () => {},
    hover: false,
    renderer: "none",
    ...options,
  });
}

export interface ViewPlace {
  readonly container?: Element;
  readonly renderer?: "svg" | "none";
}

/** A loader that refuses everything: a chart never fetches, and never follows a link. */
export const noLoader: Loader = {
  load: refuse,
  sanitize: refuse,
  http: refuse,
  file: refuse,
};

function refuse(): Promise<never> {
  return Promise.reject(new Error("A chart loads nothing and links nowhere."));
}

interface TextItem {
  readonly fontSize?: number;
  readonly fontWeight?: number | string;
}

interface TextMetrics {
  width: (item: TextItem, text: string | null | undefined) => number;
}

/** vega exports `textMetrics` but does not declare it. */
function measureByTable(): void {
  const { textMetrics } = vega as unknown as { readonly textMetrics: TextMetrics };
  textMetrics.width = ({ fontSize, fontWeight }, text) =>
    textWidth(text ?? "", { size: fontSize ?? 11, weight: weightOf(fontWeight) });
}

function weightOf(weight: number | string | undefined): number {
  if (weight === "bold") return 700;
  return Number(weight) || 400;
}
