import { attachmentCurveChart } from "./attachment-curve-chart.ts";
import type { AttachmentCurves } from "./attachment-curves.ts";
import type { CaseFlow } from "./case-flow.ts";
import { causesChart, type FailureCauses } from "./causes-chart.ts";
import type { Chart } from "./chart.ts";
import { flowChart } from "./flow-chart.ts";
import { intervalChart } from "./interval-chart.ts";
import type { RateIntervals } from "./rate-intervals.ts";

/**
 * What an answer asks to be drawn: finished numbers, and no width. The chart itself is laid out
 * where the room for it is known, on the page, in the report or on a slide.
 */
export type ChartRequest =
  | { readonly draw: "attachment curves"; readonly curves: AttachmentCurves }
  | { readonly draw: "intervals"; readonly intervals: RateIntervals }
  | { readonly draw: "causes"; readonly causes: FailureCauses }
  | { readonly draw: "flow"; readonly flow: CaseFlow };

/** The chart laid out for a width in pixels, margins included. */
export function layChart(request: ChartRequest, size: { readonly width: number }): Chart {
  switch (request.draw) {
    case "attachment curves":
      return attachmentCurveChart(request.curves, size);
    case "intervals":
      return intervalChart(request.intervals, size);
    case "causes":
      return causesChart(request.causes, size);
    case "flow":
      return flowChart(request.flow, size);
  }
}
