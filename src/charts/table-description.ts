import { plainText } from "./plain-text.ts";
import { scaleLabel, type TableDrawing, type TableMark } from "./table-drawing.ts";
import { valueLabel } from "./value-axis.ts";

const mostSaid = 40;

/** The drawing in words: every mark where they are few, else the range of each scale. */
export function describeTable(drawing: TableDrawing): string {
  const { as, across, up, by, marks } = drawing;
  const split = by === undefined ? "" : `, by ${plainText(by)}`;
  const start = `${titles[as]} of ${plainText(scaleLabel(up))} over ${plainText(scaleLabel(across))}${split}.`;
  if (marks.length === 0) return `${start} Nothing is drawn.`;
  if (as !== "points" && marks.length <= mostSaid) {
    return `${start} ${marks.map((mark) => said(mark, drawing)).join("; ")}.`;
  }
  const values = marks.flatMap((mark) => (mark.up === null ? [] : [mark.up]));
  const range = (all: readonly number[], kind: typeof up.kind) =>
    [Math.min, Math.max]
      .map((end) =>
        valueLabel(
          all.reduce((a, b) => end(a, b)),
          kind,
        ),
      )
      .join(" to ");
  const upRange = values.length === 0 ? "no values" : range(values, up.kind);
  const acrossRange =
    across.kind === "groups"
      ? `${across.names?.length ?? 0} groups`
      : range(
          marks.map((mark) => mark.across),
          across.kind,
        );
  return `${start} ${marks.length} marks: ${acrossRange} across, ${upRange} up.`;
}

const titles = { bars: "Bars", points: "Points", line: "Lines", boxes: "Boxes" } as const;

function said({ across, up, group, rows, spread }: TableMark, drawing: TableDrawing): string {
  const { names } = drawing.across;
  const place =
    names === undefined ? valueLabel(across, drawing.across.kind) : plainText(names[across] ?? "");
  const named = drawing.groups[group];
  const name = named === undefined ? place : `${place}, ${plainText(named)}`;
  const text = (value: number) => valueLabel(value, drawing.up.kind);
  if (up === null) return `${name}: none`;
  if (spread === undefined) return `${name}: ${text(up)}`;
  return `${name}: median ${text(up)}, quartiles ${text(spread.lower)} and ${text(spread.upper)}, of ${rows}`;
}
