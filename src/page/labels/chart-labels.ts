import { countText, numberText } from "./locale.ts";

/** The words of the charts: walking along them, choosing groups, taking a copy. */
export const chartLabels = {
  groupsAndCopies: "Groups and copies",
  copiesAlone: "Copies",
  groupsShown: "Shown",
  copies: "Take a copy",
  saveSvg: "SVG",
  saveSvgTitle: "Save the chart as a drawing (SVG)",
  savePng: "PNG",
  savePngTitle: "Save the chart as an image of twice the size (PNG)",
  saveCsv: "CSV",
  saveCsvTitle: "Save the numbers drawn, unrounded, as a table (CSV)",
  copyNumbers: "Copy the numbers",
  copied: "The numbers are on the clipboard.",
  copyRefused: "The clipboard was refused; save the CSV.",
  walkHint:
    "Left and right arrow keys walk along the chart, up and down go to another group, Enter opens the eyes.",
  walkName: (description: string) => `Chart. ${description}`,
  day: (day: number) => `day ${countText(day)}`,
  atRisk: (count: number) => `${countText(count)} at risk`,
  interval: (level: number, lower: string, upper: string) =>
    `${numberText(100 * level)}% interval ${lower} to ${upper}`,
  beforeFirst: "no failure yet",
  noPoints: "no points",
  unshownRows: (rows: number) =>
    `${countText(rows)} more ${rows === 1 ? "row" : "rows"} on the sheet and in the report`,
  otherReasons: (reasons: number, all: number) =>
    reasons === all ? `for ${all} reasons` : `for ${reasons} other reasons`,
} as const;
