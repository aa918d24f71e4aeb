import { type ChartRequest, layChart } from "../../charts/chart-request.ts";

/** Pixels across of a chart below the sentence, and how tall it may be there. */
const below = { width: 860, tallest: 440 };

/**
 * Whether a chart stands beside the sentence, where it has the whole height: a tall one. A flow
 * needs the whole width.
 */
export function standsBeside(chart: ChartRequest | undefined): boolean {
  if (chart === undefined || chart.draw === "flow") return false;
  return layChart(chart, { width: below.width }).height > below.tallest;
}
