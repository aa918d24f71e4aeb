import { plainText } from "./plain-text.ts";
import { fitText, textWidth, wrapText } from "./text-width.ts";
import { smallTextRoom, textSize } from "./theme.ts";

/** Where the parts of an interval chart stand, pixels from the top left of its rows. */
export interface IntervalLayout {
  /** Left edge and width of the axis. */
  readonly x: number;
  readonly width: number;
  /** Space above the rows, and their foot. */
  readonly top: number;
  readonly bottom: number;
  /** Width for names. */
  readonly labelRoom: number;
  /** Right edges of the counts and of the values. */
  readonly countX: number;
  readonly valueX: number;
  /** Baseline of the headings over counts and values. */
  readonly headingY: number;
  /** Stretches of height where the axis' lines are drawn. */
  readonly spans: readonly { readonly top: number; readonly bottom: number }[];
  readonly places: readonly RowPlace[];
}

export interface RowPlace {
  /** Baseline of its first line of text. */
  readonly textY: number;
  /** Centre of its mark. */
  readonly markY: number;
}

/** The texts of a row: its name, what is counted, and its value with limits. */
export interface RowTexts {
  readonly label: string;
  readonly count: string;
  readonly value: string;
}

const font = { size: textSize.label };
const narrowBelow = 520;

/** `over` stands over the names and widens their column as a name does. */
export function intervalLayout(
  rows: readonly RowTexts[],
  width: number,
  over?: string,
): IntervalLayout {
  const counts = widest(rows.map(({ count }) => count));
  const values = widest(rows.map(({ value }) => value));
  const heading = over === undefined ? 0 : textWidth(plainText(over), { size: smallTextRoom });
  return width < narrowBelow
    ? stacked(rows, width, { counts, values })
    : beside(rows, width, { counts, values, heading });
}

interface Widths {
  readonly counts: number;
  readonly values: number;
  /** Of what stands over the names. */
  readonly heading?: number;
}

/** The heading over the names, as far as the one over the counts leaves room. */
export function namesHeading(
  over: string | undefined,
  counted: string,
  { countX, headingY }: IntervalLayout,
): readonly { readonly x: number; readonly y: number; readonly text: string }[] {
  const size = smallTextRoom;
  const width = countX - textWidth(counted, { size }) - 10;
  if (over === undefined || width < 30) return [];
  return [{ x: 0, y: headingY, text: fitText(plainText(over), { size, width }) }];
}

/** Names, counts, marks and values side by side. */
function beside(
  rows: readonly RowTexts[],
  width: number,
  { counts, values, heading = 0 }: Widths,
): IntervalLayout {
  const names = rows.map(({ label }) => plainText(label));
  const wanted = Math.ceil(Math.max(widest(names), heading));
  const labelRoom = Math.min(wanted, Math.floor(width * 0.28));
  const countX = labelRoom + 18 + counts;
  const x = countX + 24;
  const heights = names.map((name) => (linesOf(name, labelRoom) > 1 ? 42 : 27));
  return {
    x,
    width: width - x - values - 24,
    top: 28,
    headingY: -10,
    labelRoom,
    countX,
    valueX: width,
    spans: [{ top: -4, bottom: sum(heights) }],
    ...placed(heights, (height) => ({ text: 18, mark: height > 27 ? 14 : 13.5 })),
  };
}

/** Names, counts and values on a line above each mark. */
function stacked(
  texts: readonly RowTexts[],
  width: number,
  { counts, values }: Widths,
): IntervalLayout {
  const countX = width - values - 14;
  const labelRoom = Math.max(60, countX - counts - 10);
  const lines = texts.map(({ label }) => linesOf(plainText(label), labelRoom));
  const heights = lines.map((count) => 28 + count * 16);
  const rows = placed(heights, (height) => ({ text: 14, mark: height - 18 }));
  return {
    x: 14,
    width: width - 28,
    top: 44,
    headingY: -8,
    labelRoom,
    countX,
    valueX: width,
    spans: rows.places.map(({ markY }) => ({ top: markY - 8, bottom: markY + 8 })),
    ...rows,
  };
}

function placed(
  heights: readonly number[],
  offsets: (height: number) => { readonly text: number; readonly mark: number },
): Pick<IntervalLayout, "places" | "bottom"> {
  let y = 0;
  const places = heights.map((height) => {
    const { text, mark } = offsets(height);
    const place = { textY: y + text, markY: y + mark };
    y += height;
    return place;
  });
  return { places, bottom: y };
}

function widest(all: readonly string[]): number {
  return Math.max(0, ...all.map((text) => textWidth(text, font)));
}

function linesOf(name: string, width: number): number {
  return wrapText(name, 2, { ...font, width }).length;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
