import { plainText } from "./plain-text.ts";
import { countText, rateText } from "./rate-intervals.ts";
import type { SectionedRate, SectionedRates } from "./sectioned-rates.ts";
import { textWidth, wrapText } from "./text-width.ts";
import { textSize } from "./theme.ts";

/** Where the parts of a chart of sectioned rates stand, pixels from the top left of its rows. */
export interface SectionedLayout {
  /** Left edge and width of the axis. */
  readonly x: number;
  readonly width: number;
  /** Space above the rows, and their foot. */
  readonly top: number;
  readonly bottom: number;
  /** Right edges of the counts and of the values. */
  readonly countX: number;
  readonly valueX: number;
  /** Baseline of the column headings. */
  readonly headingY: number;
  readonly headings: readonly PlacedHeading[];
  readonly rows: readonly PlacedRow[];
  /** Stretches of height where the axis' lines are drawn. */
  readonly spans: readonly { readonly top: number; readonly bottom: number }[];
}

export interface PlacedHeading {
  readonly text: string;
  readonly y: number;
}

export interface PlacedRow {
  readonly row: SectionedRate;
  readonly lines: readonly string[];
  readonly textY: number;
  readonly markY: number;
}

const narrowBelow = 520;
const lineHeight = 16;
export const indent = 12;

/** Names, counts, marks and values side by side; where narrow, the marks under the rest. */
export function sectionedLayout(rates: SectionedRates, width: number): SectionedLayout {
  const rows = rates.sections.flatMap((section) => section.rows);
  const counts = widest(rows.map(countText));
  const values = widest(rows.map(rateText));
  const narrow = width < narrowBelow;
  const names = widest(
    rows.map((row) => plainText(row.label)),
    600,
  );
  const labelRoom = narrow
    ? Math.max(60, width - values - counts - 24 - indent)
    : Math.min(Math.ceil(names), Math.floor(width * 0.32));
  const countX = narrow ? width - values - 14 : indent + labelRoom + 18 + counts;
  const x = narrow ? indent : countX + 24;
  const place = placed(rates, labelRoom, narrow);
  return {
    x,
    width: narrow ? width - indent - 18 : width - x - values - 24,
    top: narrow ? 24 : 20,
    headingY: -8,
    countX,
    valueX: width,
    ...place,
  };
}

function placed(
  { sections }: SectionedRates,
  labelRoom: number,
  narrow: boolean,
): Pick<SectionedLayout, "headings" | "rows" | "spans" | "bottom"> {
  const headings: PlacedHeading[] = [];
  const rows: PlacedRow[] = [];
  const spans: { top: number; bottom: number }[] = [];
  let y = 0;
  for (const [position, section] of sections.entries()) {
    y += position === 0 ? 4 : 12;
    headings.push({ text: plainText(section.label), y: y + 14 });
    y += 22;
    const top = y;
    for (const row of section.rows) {
      const weight = row.chosen ? 600 : 400;
      const font = { size: textSize.label, weight, width: labelRoom };
      const lines = wrapText(plainText(row.label), 2, font);
      const height = lines.length * lineHeight + (narrow ? 24 : 8);
      const markY = narrow ? y + height - 14 : y + height / 2;
      rows.push({ row, lines, textY: y + 15, markY });
      if (narrow) spans.push({ top: markY - 8, bottom: markY + 8 });
      y += height;
    }
    if (!narrow) spans.push({ top, bottom: y });
  }
  return { headings, rows, spans, bottom: y };
}

function widest(all: readonly string[], weight = 400): number {
  return Math.max(0, ...all.map((text) => textWidth(text, { size: textSize.label, weight })));
}
