import { darkPalette, groupDashes, type Palette, paperPalette } from "./palette.ts";

/** The look of every chart: a palette and the vega-lite configuration made from it. */
export interface Theme {
  readonly name: string;
  readonly palette: Palette;
  /** A vega-lite `config`: specifications name its styles and hold no colour of their own. */
  readonly config: object;
}

export const fontFamily = "'Source Sans 3 Variable', 'Source Sans 3', sans-serif";

/** Text sizes in pixels. */
export const textSize = { label: 13, small: 12 } as const;

/** The size for which small text is given room: for a meeting it is drawn as large as labels. */
export const smallTextRoom = textSize.label;

export const paperTheme: Theme = theme("paper", paperPalette);
export const darkTheme: Theme = theme("dark", darkPalette);

/** The theme with all its text of one size: read from afar, nothing may be smaller. */
export function evenText(from: Theme): Theme {
  const { style, ...rest } = from.config as { readonly style: object };
  return { ...from, config: { ...rest, style: { ...style, small: { fontSize: textSize.label } } } };
}

/** The styles of the group at an index, counted from 0: thirty differ before any comes again. */
export function groupStyles(index: number): { readonly hue: string; readonly dash: string } {
  return {
    hue: `hue-${index % paperPalette.groups.length}`,
    dash: `dash-${index % groupDashes.length}`,
  };
}

function theme(name: string, palette: Palette): Theme {
  return { name, palette, config: configOf(palette) };
}

function configOf(palette: Palette): object {
  return {
    background: null,
    aria: false,
    font: fontFamily,
    view: { stroke: null },
    mark: { aria: false, color: palette.ink },
    text: { fontSize: textSize.label, baseline: "alphabetic", align: "left" },
    point: { opacity: 1 },
    axis: axisOf(palette),
    style: { ...textStyles(palette), ...lineStyles(palette), ...groupStyleTable(palette) },
  };
}

function axisOf(palette: Palette): object {
  return {
    aria: false,
    domain: false,
    ticks: false,
    title: null,
    gridColor: palette.hairline,
    gridWidth: 1,
    labelColor: palette.muted,
    labelFont: fontFamily,
    labelFontSize: textSize.label,
    labelPadding: 8,
  };
}

function textStyles(palette: Palette): Readonly<Record<string, object>> {
  return {
    plain: { color: palette.ink },
    quiet: { color: palette.muted },
    strong: { fontWeight: 600 },
    small: { fontSize: textSize.small },
    failed: { color: palette.failed },
    "failed-outline": { fillOpacity: 0, stroke: palette.failed, strokeWidth: 1.25 },
    attached: { color: palette.attached },
  };
}

function lineStyles(palette: Palette): Readonly<Record<string, object>> {
  return {
    curve: { strokeWidth: 2, strokeJoin: "miter" },
    dimmed: { opacity: 0.4 },
    band: { fillOpacity: 0.11 },
    "dimmed-band": { fillOpacity: 0.05 },
    censored: { strokeWidth: 1.1, filled: false, opacity: 0.75 },
    leader: { strokeWidth: 0.8, opacity: 0.7 },
    reach: { strokeWidth: 0.9, strokeDash: [1, 4], opacity: 0.8 },
    hairline: { color: palette.hairline, strokeWidth: 1 },
    axis: { color: palette.muted, strokeWidth: 1 },
    standard: { color: palette.ink, strokeWidth: 1, strokeDash: [2, 3] },
    interval: { strokeWidth: 1.75 },
    box: { color: palette.leaf, stroke: palette.muted, strokeWidth: 1 },
    target: { opacity: 0, cursor: "pointer" },
  };
}

function groupStyleTable(palette: Palette): Readonly<Record<string, object>> {
  return Object.fromEntries([
    ...palette.groups.map((color, i) => [`hue-${i}`, { color }]),
    ...groupDashes.map((strokeDash, i) => [`dash-${i}`, { strokeDash }]),
  ]);
}
