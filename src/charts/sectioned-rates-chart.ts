import type { Chart, ChartRow } from "./chart.ts";
import { type Layer, layered, segments, symbols, texts } from "./layers.ts";
import { type PercentAxis, percentAxis, percentAxisLayers } from "./percent-axis.ts";
import { percentText } from "./percent-text.ts";
import { plainText } from "./plain-text.ts";
import { countText, rateText } from "./rate-intervals.ts";
import type { SectionedRate, SectionedRates } from "./sectioned-rates.ts";
import { indent, type SectionedLayout, sectionedLayout } from "./sectioned-rates-layout.ts";
import { wrapText } from "./text-width.ts";
import { smallTextRoom } from "./theme.ts";

const noteHeight = 17;

/**
 * Rates under headings, each a square on the line of its interval over one percent axis from
 * zero; a dotted line shows how far the rate itself moves with what its row leaves open.
 */
export function sectionedRatesChart(
  rates: SectionedRates,
  { width }: { readonly width: number },
): Chart {
  const rows = rates.sections.flatMap((section) => section.rows);
  const ends = rows.flatMap(({ rate, upper, highest }) => [rate ?? 0, upper ?? 0, highest ?? 0]);
  const axis = percentAxis(ends);
  const layout = sectionedLayout(rates, width);
  const note = noteLines(rates, width);
  const plot = { width, height: layout.bottom };
  const bottom = 26 + note.length * noteHeight;
  const margins = { left: 0, right: 0, top: layout.top, bottom };
  return {
    kind: "sectioned-rates",
    spec: layered(plot, margins, [
      ...layersOf(rates, axis, layout),
      ...noteLayers(note, layout.bottom),
    ]),
    description: describe(rates),
    width,
    height: margins.top + plot.height + margins.bottom,
    columns: [
      { field: "section", label: "Section" },
      { field: "row", label: "Row" },
      { field: "events", label: plainText(rates.counted) },
      { field: "total", label: "Eyes" },
      { field: "rate", label: "Rate" },
      { field: "lower", label: "Lower limit" },
      { field: "upper", label: "Upper limit" },
      { field: "lowest", label: "Lowest" },
      { field: "highest", label: "Highest" },
    ],
    data: rates.sections.flatMap(({ label, rows: own }) => own.map((row) => dataRow(label, row))),
  };
}

function dataRow(section: string, row: SectionedRate): ChartRow {
  const { label, events, total, rate, lower, upper, lowest = null, highest = null } = row;
  return { section, row: label, events, total, rate, lower, upper, lowest, highest };
}

function layersOf(
  { counted, how, tone }: SectionedRates,
  axis: PercentAxis,
  layout: SectionedLayout,
): readonly Layer[] {
  const { x, width, bottom: foot, spans, countX, valueX, headingY } = layout;
  const at = (rate: number): number => x + (rate / axis.max) * width;
  const columns = [
    { x: countX, y: headingY, text: plainText(counted) },
    { x: valueX, y: headingY, text: how === undefined ? "95% interval" : `${how} (95%)` },
  ];
  return [
    ...percentAxisLayers(axis, { x, width, foot, spans }),
    texts(columns, ["quiet", "small"], "right"),
    texts(
      layout.headings.map(({ text, y }) => ({ x: 0, y, text })),
      ["plain", "strong"],
    ),
    ...rowTexts(layout),
    ...marks(layout, at, tone),
  ];
}

function rowTexts({ rows, countX, valueX }: SectionedLayout): readonly Layer[] {
  const names = (chosen: boolean): Layer =>
    texts(
      rows
        .filter(({ row }) => (row.chosen ?? false) === chosen)
        .flatMap(({ lines, textY }) =>
          lines.map((text, line) => ({ x: indent, y: textY + line * 16, text })),
        ),
      chosen ? ["plain", "strong"] : ["plain"],
    );
  const column = (x: number, textOf: (row: SectionedRate) => string): Layer =>
    texts(
      rows.map(({ row, textY }) => ({ x, y: textY, text: textOf(row), pick: row.pick })),
      ["plain"],
      "right",
    );
  return [names(false), names(true), column(countX, countText), column(valueX, rateText)];
}

function marks(
  { rows }: SectionedLayout,
  at: (rate: number) => number,
  tone: SectionedRates["tone"],
): readonly Layer[] {
  const line = (from: number | null | undefined, to: number | null | undefined, y: number) =>
    from === null || to === null || from === undefined || to === undefined
      ? []
      : [{ x: at(from), y, x2: at(to), y2: y }];
  const reaches = rows.flatMap(({ row, markY }) => line(row.lowest, row.highest, markY + 5));
  const lines = rows.flatMap(({ row, markY }) => line(row.lower, row.upper, markY));
  const points = rows.flatMap(({ row, markY }) =>
    row.rate === null ? [] : [{ x: at(row.rate), y: markY, pick: row.pick }],
  );
  return [
    segments(reaches, ["standard"]),
    segments(lines, ["interval", tone]),
    symbols(points, { shape: "square", size: 64 }, [tone]),
  ];
}

function noteLines({ reach }: SectionedRates, width: number): readonly string[] {
  if (reach === undefined) return [];
  const room = { size: smallTextRoom, width: width - 34 };
  return wrapText(plainText(reach), 2, room);
}

/** The dotted line once more, with what it stands for. */
function noteLayers(lines: readonly string[], foot: number): readonly Layer[] {
  if (lines.length === 0) return [];
  const y = foot + 26 + noteHeight - 5;
  return [
    segments([{ x: 0, y: y - 4, x2: 26, y2: y - 4 }], ["standard"]),
    texts(
      lines.map((text, line) => ({ x: 34, y: y + line * noteHeight, text })),
      ["quiet", "small"],
    ),
  ];
}

function describe({ sections, counted, reach }: SectionedRates): string {
  const parts = sections.map(({ label, rows }) => {
    const told = rows.map((row) => describeRow(row, plainText(counted)));
    return `${plainText(label)}: ${told.join("; ")}.`;
  });
  return [...parts, ...(reach === undefined ? [] : [`Dotted: ${plainText(reach)}.`])].join(" ");
}

function describeRow(row: SectionedRate, counted: string): string {
  const start = `${plainText(row.label)} ${row.events} of ${row.total} ${counted}`;
  if (row.rate === null) return start;
  const { lower, upper, lowest = null, highest = null } = row;
  const limits =
    lower === null || upper === null
      ? ""
      : ` (95% interval ${percentText(lower, 1)} to ${percentText(upper, 1)})`;
  const reach =
    lowest === null || highest === null
      ? ""
      : `, from ${percentText(lowest, 1)} to ${percentText(highest, 1)} over what is left open`;
  return `${start}, ${percentText(row.rate, 1)}${limits}${reach}`;
}
