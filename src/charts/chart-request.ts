import type { AcuityScatter } from "./acuity-scatter.ts";
import { acuityScatterChart } from "./acuity-scatter-chart.ts";
import { attachmentCurveChart } from "./attachment-curve-chart.ts";
import type { AttachmentCurves } from "./attachment-curves.ts";
import { calibrationChart } from "./calibration-chart.ts";
import type { CalibrationPoints } from "./calibration-points.ts";
import type { CaseFlow } from "./case-flow.ts";
import { causesChart, type FailureCauses } from "./causes-chart.ts";
import type { Chart } from "./chart.ts";
import type { ClockRose } from "./clock-rose.ts";
import { clockRoseChart } from "./clock-rose-chart.ts";
import type { Course } from "./course.ts";
import { courseChart } from "./course-chart.ts";
import { effectChart } from "./effect-chart.ts";
import type { EffectIntervals } from "./effect-intervals.ts";
import { flowChart } from "./flow-chart.ts";
import type { Funnel } from "./funnel.ts";
import { funnelChart } from "./funnel-chart.ts";
import { incidenceChart } from "./incidence-chart.ts";
import type { IncidenceCurves } from "./incidence-curves.ts";
import { intervalChart } from "./interval-chart.ts";
import type { Monitoring } from "./monitoring.ts";
import { monitoringChart } from "./monitoring-chart.ts";
import type { RateIntervals } from "./rate-intervals.ts";
import type { SectionedRates } from "./sectioned-rates.ts";
import { sectionedRatesChart } from "./sectioned-rates-chart.ts";
import { tableChart } from "./table-chart.ts";
import type { TableDrawing } from "./table-drawing.ts";

/**
 * What an answer asks to be drawn: finished numbers, and no width. The chart itself is laid out
 * where the room for it is known, on the page, in the report or on a slide.
 */
export type ChartRequest =
  | { readonly draw: "attachment curves"; readonly curves: AttachmentCurves }
  | { readonly draw: "incidence"; readonly incidence: IncidenceCurves }
  | { readonly draw: "intervals"; readonly intervals: RateIntervals }
  | { readonly draw: "effects"; readonly effects: EffectIntervals }
  | { readonly draw: "calibration"; readonly calibration: CalibrationPoints }
  | { readonly draw: "causes"; readonly causes: FailureCauses }
  | { readonly draw: "flow"; readonly flow: CaseFlow }
  | { readonly draw: "clock rose"; readonly rose: ClockRose }
  | { readonly draw: "course"; readonly course: Course }
  | { readonly draw: "acuity scatter"; readonly scatter: AcuityScatter }
  | { readonly draw: "sectioned rates"; readonly rates: SectionedRates }
  | { readonly draw: "funnel"; readonly funnel: Funnel }
  | { readonly draw: "monitoring"; readonly monitoring: Monitoring }
  | { readonly draw: "table"; readonly drawing: TableDrawing };

/** Pixels, margins included. */
export interface ChartRoom {
  readonly width: number;
  /** Plots are made lower to stay within it, as far as they can be. Default: no end. */
  readonly tallest?: number;
}

/** The chart laid out for the room there is. */
export function layChart(request: ChartRequest, { width, tallest }: ChartRoom): Chart {
  const chart = laidOut(request, { width });
  if (tallest === undefined || chart.height <= tallest) return chart;
  return laidOut(request, { width, lower: Math.ceil(chart.height - tallest) });
}

function laidOut(
  request: ChartRequest,
  size: { readonly width: number; readonly lower?: number },
): Chart {
  switch (request.draw) {
    case "attachment curves":
      return attachmentCurveChart(request.curves, size);
    case "incidence":
      return incidenceChart(request.incidence, size);
    case "intervals":
      return intervalChart(request.intervals, size);
    case "effects":
      return effectChart(request.effects, size);
    case "calibration":
      return calibrationChart(request.calibration, size);
    case "causes":
      return causesChart(request.causes, size);
    case "flow":
      return flowChart(request.flow, size);
    case "acuity scatter":
      return acuityScatterChart(request.scatter, size);
    case "clock rose":
      return clockRoseChart(request.rose, size);
    case "course":
      return courseChart(request.course, size);
    case "sectioned rates":
      return sectionedRatesChart(request.rates, size);
    case "funnel":
      return funnelChart(request.funnel, size);
    case "monitoring":
      return monitoringChart(request.monitoring, size);
    case "table":
      return tableChart(request.drawing, size);
  }
}
