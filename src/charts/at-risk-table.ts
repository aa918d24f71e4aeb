import { type AttachmentCurves, attachmentWords } from "./attachment-curves.ts";
import { type Layer, type PlotSize, segments, type TextRow, texts } from "./layers.ts";
import { plainText } from "./plain-text.ts";
import { fitText, textWidth, wrapText } from "./text-width.ts";
import { textSize } from "./theme.ts";
import { timeText } from "./time-text.ts";

const font = { size: textSize.label };
const rowHeight = 17;
const headingY = 43;

/** What the table needs of curves, falling or rising. */
export type CurvesAtRisk = Pick<
  AttachmentCurves,
  "until" | "atRiskTimes" | "atRisk" | "failed" | "atRiskPicks" | "timeLabel" | "words" | "splitBy"
> & { readonly groups: readonly { readonly label: string }[] };

/**
 * The time axis' labels and, under it, the table of eyes at risk: which columns there is room for.
 */
export interface AtRiskTable {
  readonly curves: CurvesAtRisk;
  /** Which of `atRiskTimes` are shown. */
  readonly columns: readonly number[];
  /** Half the width of the widest entry, pixels. */
  readonly halfWidth: number;
}

/** Chooses columns evenly so that neither labels nor numbers of neighbours touch. */
export function atRiskTable(curves: CurvesAtRisk, plotWidth: number): AtRiskTable {
  const shown = curves.atRiskTimes.flatMap((day, i) => (day <= curves.until ? [i] : []));
  const entries = shown.flatMap((column) => [
    timeText(curves.atRiskTimes[column]!, curves.timeLabel),
    ...curves.groups.map((_, row) => entryText(curves, row, column)),
  ]);
  const width = Math.max(0, ...entries.map((text) => textWidth(text, font)));
  const stride = strideFor(
    shown.map((i) => curves.atRiskTimes[i]!),
    {
      days: ((width + 10) / plotWidth) * curves.until,
    },
  );
  return { curves, columns: shown.filter((_, i) => i % stride === 0), halfWidth: width / 2 };
}

/** Pixels from the bottom of the plot to the foot of the table. */
export function atRiskHeight(table: AtRiskTable, labelRoom: number): number {
  const lines = labelsOf(table, labelRoom).reduce((sum, label) => sum + label.length, 0);
  return table.columns.length === 0 ? 12 : headingY + lines * rowHeight + 8;
}

/** Widest name of a group, pixels. */
export function groupNameWidth({ groups }: CurvesAtRisk): number {
  return Math.max(0, ...groups.map(({ label }) => textWidth(plainText(label), font)));
}

/** The axis' labels and the table, names of groups `gap` pixels right of the plot. */
export function atRiskLayers(
  table: AtRiskTable,
  plot: PlotSize,
  { gap, labelRoom }: { readonly gap: number; readonly labelRoom: number },
): readonly Layer[] {
  if (table.columns.length === 0) return [];
  const heading = headingOf(table.curves, plot.width + gap + labelRoom);
  return [
    ...timeAxis(table, plot),
    texts([{ x: 0, y: plot.height + headingY, text: heading[0]! }], ["quiet"]),
    texts(
      heading.slice(1).map((text) => ({
        x: textWidth(heading[0]!, font) + 4,
        y: plot.height + headingY,
        text,
      })),
      ["failed"],
    ),
    ...tableRows(table, plot, { gap, labelRoom }),
  ];
}

/** What is counted, and by what it is split as far as there is room; then what stands in brackets. */
function headingOf({ words, failed, splitBy }: CurvesAtRisk, width: number): readonly string[] {
  const { atRisk } = words ?? attachmentWords;
  const rest = failed ? ["(failed so far)"] : [];
  if (splitBy === undefined) return [atRisk, ...rest];
  const room = width - rest.reduce((sum, text) => sum + textWidth(text, font) + 4, 0);
  return [fitText(`${atRisk}, by ${plainText(splitBy)}`, { ...font, width: room }), ...rest];
}

function timeAxis({ curves, columns }: AtRiskTable, plot: PlotSize): readonly Layer[] {
  const days = columns.map((column) => curves.atRiskTimes[column]!);
  const at = (day: number): number => (day / curves.until) * plot.width;
  return [
    segments(
      days.map((day) => ({ x: at(day), y: plot.height, x2: at(day), y2: plot.height + 5 })),
      ["axis"],
    ),
    texts(
      days.map((day) => ({
        x: at(day),
        y: plot.height + 20,
        text: timeText(day, curves.timeLabel),
      })),
      ["quiet"],
      "center",
    ),
  ];
}

function tableRows(
  table: AtRiskTable,
  plot: PlotSize,
  { gap, labelRoom }: { gap: number; labelRoom: number },
): readonly Layer[] {
  const names: TextRow[] = [];
  const counts: TextRow[] = [];
  const failures: TextRow[] = [];
  let y = plot.height + headingY + rowHeight;
  labelsOf(table, labelRoom).forEach((lines, row) => {
    lines.forEach((text, i) => {
      names.push({ x: plot.width + gap, y: y + i * rowHeight, text });
    });
    for (const column of table.columns) {
      const { count, failed } = entry(table.curves, { row, column, plot, y });
      counts.push(count);
      if (failed) failures.push(failed);
    }
    y += lines.length * rowHeight;
  });
  return [texts(names, ["plain"]), texts(counts, ["plain"]), texts(failures, ["failed"])];
}

/** One entry, centred under its tick: eyes at risk, and in parentheses those failed. */
function entry(
  curves: CurvesAtRisk,
  { row, column, plot, y }: { row: number; column: number; plot: PlotSize; y: number },
): { readonly count: TextRow; readonly failed?: TextRow } {
  const centre = (curves.atRiskTimes[column]! / curves.until) * plot.width;
  const x = centre - textWidth(entryText(curves, row, column), font) / 2;
  const text = String(curves.atRisk[row]?.[column] ?? 0);
  const count = { x, y, text, pick: curves.atRiskPicks?.[row]?.[column] };
  const failed = curves.failed?.[row]?.[column];
  if (failed === undefined) return { count };
  return { count, failed: { x: x + textWidth(`${text} `, font), y, text: `(${failed})` } };
}

function entryText(curves: CurvesAtRisk, row: number, column: number): string {
  const failed = curves.failed?.[row]?.[column];
  const count = String(curves.atRisk[row]?.[column] ?? 0);
  return failed === undefined ? count : `${count} (${failed})`;
}

function labelsOf({ curves }: AtRiskTable, width: number): readonly (readonly string[])[] {
  return curves.groups.map(({ label }) => wrapText(plainText(label), 2, { ...font, width }));
}

/** The least stride that leaves every pair of neighbours at least `days` apart. */
function strideFor(times: readonly number[], { days }: { days: number }): number {
  for (let stride = 1; stride < times.length; stride++) {
    const kept = times.filter((_, i) => i % stride === 0);
    if (kept.every((time, i) => i === 0 || time - kept[i - 1]! >= days)) return stride;
  }
  return Math.max(1, times.length);
}
