import type { AttachmentCurves, CurveGroup } from "./attachment-curves.ts";
import { lastDay, survivalAt } from "./curve-geometry.ts";
import { endIntervalX } from "./end-intervals.ts";
import { type Layer, type PlotSize, segments, type TextRow, texts } from "./layers.ts";
import { percentText } from "./percent-text.ts";
import { plainText } from "./plain-text.ts";
import { spreadLabels } from "./spread-labels.ts";
import type { SurvivalAxis } from "./survival-axis.ts";
import { textWidth, wrapText } from "./text-width.ts";
import { groupStyles, textSize } from "./theme.ts";

const font = { size: textSize.label, weight: 600 };
const lineHeight = 15;
const gapBelow = 3;

export interface EndLabel {
  /** Which group, counted from 0. */
  readonly index: number;
  readonly lines: readonly string[];
}

/** Labels at the ends of curves: name and value, in at most two lines of the room (pixels). */
export function endLabels(curves: AttachmentCurves, room: number): readonly EndLabel[] {
  return curves.groups.flatMap((group, index) =>
    group.total === 0 ? [] : [{ index, lines: labelLines(group, curves.until, room) }],
  );
}

/** Pixels that the labels take: the widest line, and all of them one above the other. */
export function endLabelsSize(labels: readonly EndLabel[]): PlotSize {
  const widths = labels.flatMap(({ lines }) => lines.map((line) => textWidth(line, font)));
  return {
    width: Math.max(0, ...widths),
    height: labels.reduce((sum, label) => sum + heightOf(label), 0),
  };
}

/** The labels right of the plot, none over another, and lines from the ends of curves to them. */
export function endLabelLayers(
  labels: readonly EndLabel[],
  { curves, axis, plot, gap }: EndLabelPlace,
): readonly Layer[] {
  const ends = labels.map(({ index }) => {
    const group = curves.groups[index]!;
    const day = lastDay(group, curves.until);
    return {
      x: (day / curves.until) * plot.width,
      y: ((1 - survivalAt(group, day)) / (1 - axis.floor)) * plot.height,
    };
  });
  const centres = spreadLabels(
    labels.map((label, i) => ({ wanted: ends[i]!.y, height: heightOf(label) })),
    { top: -lineHeight / 2, bottom: plot.height + lineHeight / 2 },
  );
  return labels.flatMap((label, i) => {
    const from = plot.width + endIntervalX(curves, label.index) + 2;
    const place = { end: ends[i]!, centre: centres[i]!, right: plot.width, from, gap };
    return labelAndLeader(label, curves.groups[label.index]!, place);
  });
}

export interface EndLabelPlace {
  readonly curves: AttachmentCurves;
  readonly axis: SurvivalAxis;
  readonly plot: PlotSize;
  /** Pixels between the plot and the labels. */
  readonly gap: number;
}

function labelLines(group: CurveGroup, until: number, room: number): readonly string[] {
  const value = ` ${percentText(survivalAt(group, lastDay(group, until)), 1)}`;
  const width = room - textWidth(value, font);
  const lines = [...wrapText(plainText(group.label), 2, { ...font, width })];
  lines.push(`${lines.pop() ?? ""}${value}`);
  return lines;
}

function heightOf({ lines }: EndLabel): number {
  return lines.length * lineHeight + gapBelow;
}

interface LabelPosition {
  /** End of the curve. */
  readonly end: { readonly x: number; readonly y: number };
  /** Height of the label's centre. */
  readonly centre: number;
  /** Right edge of the plot, and where the line to the label sets out. */
  readonly right: number;
  readonly from: number;
  readonly gap: number;
}

function labelAndLeader(
  { index, lines }: EndLabel,
  { pick }: CurveGroup,
  place: LabelPosition,
): readonly Layer[] {
  const { end, centre, right, from, gap } = place;
  const hue = groupStyles(index).hue;
  const top = centre - ((lines.length - 1) * lineHeight) / 2 + font.size * 0.34;
  const rows = lines.map(
    (text, i): TextRow => ({ x: right + gap, y: top + i * lineHeight, text, pick }),
  );
  const reach = { x: end.x, y: end.y, x2: right, y2: end.y };
  const leader = { x: from, y: end.y, x2: right + gap - 3, y2: centre };
  return [
    segments(end.x < right - 1 ? [reach] : [], [hue, "reach"]),
    segments(Math.abs(centre - end.y) > 2 ? [leader] : [], [hue, "leader"]),
    texts(rows, [hue, "strong"]),
  ];
}
