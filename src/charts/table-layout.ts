import { plainText } from "./plain-text.ts";
import type { DrawnScale, TableDrawing, TableMark } from "./table-drawing.ts";
import { textWidth } from "./text-width.ts";
import { textSize } from "./theme.ts";
import { type ValueAxis, valueAxis } from "./value-axis.ts";

/** Where the parts of an upright table chart stand, pixels from the top left of its plot. */
export interface TableLayout {
  /** Edges of the plot. */
  readonly left: number;
  readonly right: number;
  readonly height: number;
  readonly axis: ValueAxis;
  /** Absent where the marks stand over names. */
  readonly acrossAxis?: ValueAxis;
  /** Width that one name has, or the whole plot. */
  readonly step: number;
  /** Middle of a name or a value across. */
  centre(across: number): number;
  /** Centre of a mark: of several groups side by side, its own. */
  x(mark: Pick<TableMark, "across" | "group">): number;
  y(up: number): number;
  /** Width of one bar or box. */
  readonly thickness: number;
}

const font = { size: textSize.label };
export const endGap = 10;

/** `lower`: pixels that the plot is to be lower by, as far as it can. */
export function tableLayout(drawing: TableDrawing, width: number, lower = 0): TableLayout {
  const own = Math.round(Math.min(320, Math.max(180, width * 0.45)));
  const height = Math.max(120, own - lower);
  const axis = valueAxis(drawnValues(drawing), {
    kind: drawing.up.kind,
    fromZero: isFromZero(drawing),
    ticks: 5,
  });
  const left = Math.ceil(Math.max(...axis.ticks.map(({ text }) => textWidth(text, font)), 16)) + 10;
  const right = width - 6 - endLabelRoom(drawing, width);
  const names = drawing.across.names?.length ?? 0;
  const step = (right - left) / Math.max(1, names);
  const sideBySide = drawing.as === "bars" || drawing.as === "boxes";
  const groups = sideBySide ? Math.max(1, drawing.groups.length) : 1;
  const thickness = Math.min(64, (step * 0.74) / groups);
  const acrossAxis = acrossOf(drawing, right - left);
  const placeOf = (across: number) =>
    acrossAxis === undefined
      ? left + step * (across + 0.5)
      : left + 8 + inAxis(across, acrossAxis) * (right - left - 16);
  return {
    ...{ left, right, height, axis, step, thickness },
    ...(acrossAxis === undefined ? {} : { acrossAxis }),
    centre: placeOf,
    x: ({ across, group }) =>
      placeOf(across) + (sideBySide ? (group - (groups - 1) / 2) * thickness : 0),
    y: (up) => height - inAxis(up, axis) * height,
  };
}

/** Bars are lengths; counts and shares are read as parts of what they begin from. */
function isFromZero({ as, up }: TableDrawing): boolean {
  return as === "bars" || up.kind === "count" || up.kind === "share";
}

function acrossOf({ across, marks }: TableDrawing, room: number): ValueAxis | undefined {
  if (across.kind === "groups") return undefined;
  const values = marks.map((mark) => mark.across);
  return valueAxis(values, { kind: across.kind, fromZero: false, ticks: Math.max(2, room / 90) });
}

function inAxis(value: number, { min, max }: ValueAxis): number {
  return (value - min) / (max - min);
}

/** Every value that the axis must hold. */
function drawnValues({ marks }: TableDrawing): number[] {
  return marks.flatMap(({ up, spread }) => {
    if (up === null) return [];
    if (spread === undefined) return [up];
    return [spread.least, spread.most, ...spread.beyond.map((each) => each.up)];
  });
}

/** Room right of lines for the names at their ends; the other kinds have a legend. */
function endLabelRoom({ as, groups }: TableDrawing, width: number): number {
  if (as !== "line" || groups.length === 0) return 0;
  const widest = Math.max(
    ...groups.map((name) => textWidth(plainText(name), { ...font, weight: 600 })),
  );
  return Math.min(Math.ceil(widest) + endGap, Math.floor(width * 0.3));
}

/** The names that marks stand over, fit to be drawn. */
export function namesOf({ names = [] }: DrawnScale): readonly string[] {
  return names.map(plainText);
}
