import type { View } from "vega";
import type { Chart } from "./chart.ts";
import type { Theme } from "./theme.ts";

export interface DrawnChart {
  /** Calls back with the `pick` of a mark whenever one is clicked; one listener at a time. */
  onPick(callback: (pick: string) => void): void;
  /** Takes the drawing away and ends its listeners. */
  destroy(): void;
}

/**
 * Draws a chart as SVG into an element of the page, replacing what was there. The drawing library
 * is loaded on first use. Nothing is evaluated as code, so a policy without 'unsafe-eval' holds.
 */
export async function drawChart(
  element: HTMLElement,
  chart: Chart,
  { theme }: { readonly theme: Theme },
): Promise<DrawnChart> {
  const { viewOf } = await import("./vega-engine.ts");
  const container = document.createElement("div");
  const view = viewOf(chart, theme, { container, renderer: "svg" });
  await view.runAsync();
  labelAsImage(container, chart);
  element.replaceChildren(container);
  return handleOf(view, container);
}

/** To a screen reader the drawing is one image with the chart's description. */
function labelAsImage(container: HTMLElement, chart: Chart): void {
  container.setAttribute("role", "img");
  container.setAttribute("aria-label", chart.description);
  container.removeAttribute("aria-roledescription");
  const svg = container.querySelector("svg");
  svg?.setAttribute("aria-hidden", "true");
  svg?.style.setProperty("font-variant-numeric", "tabular-nums");
}

function handleOf(view: View, container: HTMLElement): DrawnChart {
  let listener: (pick: string) => void = () => {};
  view.addEventListener("click", (_event, item) => {
    const datum: unknown = item?.datum;
    if (typeof datum !== "object" || datum === null || !("pick" in datum)) return;
    if (typeof datum.pick === "string") listener(datum.pick);
  });
  return {
    onPick: (callback) => {
      listener = callback;
    },
    destroy: () => {
      view.finalize();
      container.remove();
    },
  };
}
