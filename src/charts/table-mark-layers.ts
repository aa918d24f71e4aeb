import { boxLayers } from "./box-layers.ts";
import { boxes, type Layer, pixels, texts } from "./layers.ts";
import { plainText } from "./plain-text.ts";
import { spreadLabels } from "./spread-labels.ts";
import type { TableDrawing, TableMark } from "./table-drawing.ts";
import { endGap, type TableLayout } from "./table-layout.ts";
import { footSymbols, groupSymbols } from "./table-legend.ts";
import { fitText, textWidth } from "./text-width.ts";
import { groupStyles, textSize } from "./theme.ts";
import { valueLabel } from "./value-axis.ts";

/** The marks of every group, and what is written at them. */
export function markLayers(drawing: TableDrawing, layout: TableLayout): readonly Layer[] {
  const groups = Math.max(1, drawing.groups.length);
  const drawn = Array.from({ length: groups }, (_, group) =>
    drawing.marks.filter((mark): mark is DrawnMark => mark.group === group && mark.up !== null),
  );
  switch (drawing.as) {
    case "bars":
      return [
        ...drawn.flatMap((marks, group) => bars(marks, { drawing, layout, group })),
        ...feet(drawing, layout),
      ];
    case "points":
      return drawn.map((marks, group) => points(marks, { layout, group, size: 30 }));
    case "boxes":
      return [
        ...drawn.flatMap((marks, group) => boxLayers(marks, { layout, group })),
        ...feet(drawing, layout),
      ];
    case "line":
      return [
        ...drawn.flatMap((marks, group) => [
          ...lines(drawing.marks, { layout, group }),
          points(marks, { layout, group, size: 26 }),
        ]),
        ...endLabels(drawn, drawing, layout),
      ];
  }
}

type DrawnMark = TableMark & { readonly up: number };

function bars(
  marks: readonly DrawnMark[],
  { drawing, layout, group }: { drawing: TableDrawing; layout: TableLayout; group: number },
): readonly Layer[] {
  const half = Math.max(1, layout.thickness - 2) / 2;
  const foot = layout.y(0);
  const rows = marks.map((mark) => ({
    x: layout.x(mark) - half,
    x2: layout.x(mark) + half,
    y: layout.y(mark.up),
    y2: foot,
    pick: mark.pick,
  }));
  const values = marks
    .map((mark) => ({
      x: layout.x(mark),
      y: Math.min(layout.y(mark.up), foot) - 5,
      text: valueLabel(mark.up, drawing.up.kind),
      pick: mark.pick,
    }))
    .filter(({ text }) => textWidth(text, { size: textSize.small }) <= layout.thickness + 2);
  return [boxes(rows, [groupStyles(group).hue]), texts(values, ["quiet", "small"], "center")];
}

/** The symbol of its group under each bar or box, and under the place of one with no value. */
function feet(drawing: TableDrawing, layout: TableLayout): readonly Layer[] {
  const y = layout.height + 9;
  const at = (group: number) =>
    drawing.marks.filter((mark) => mark.group === group).map((mark) => ({ x: layout.x(mark), y }));
  return footSymbols(drawing, { thickness: layout.thickness, at });
}

function points(
  marks: readonly DrawnMark[],
  { layout, group, size }: { layout: TableLayout; group: number; size: number },
): Layer {
  const rows = marks.map((mark) => ({ x: layout.x(mark), y: layout.y(mark.up), pick: mark.pick }));
  return groupSymbols(rows, { group, size });
}

/** A line through each run of marks with a value; where one has none the line is broken. */
function lines(
  marks: readonly TableMark[],
  { layout, group }: { layout: TableLayout; group: number },
): readonly Layer[] {
  const { hue, dash } = groupStyles(group);
  const own = marks.filter((mark) => mark.group === group).sort((a, b) => a.across - b.across);
  const runs: { x: number; y: number }[][] = [[]];
  for (const mark of own) {
    if (mark.up === null) runs.push([]);
    else runs.at(-1)?.push({ x: layout.x(mark), y: layout.y(mark.up) });
  }
  return runs
    .filter((run) => run.length > 1)
    .map((run) => ({
      data: { values: run },
      mark: { type: "line", style: [hue, dash, "curve"] },
      encoding: { x: pixels("x"), y: pixels("y"), order: { value: null } },
    }));
}

function endLabels(
  drawn: readonly (readonly DrawnMark[])[],
  { groups }: TableDrawing,
  layout: TableLayout,
): readonly Layer[] {
  const ends = drawn.flatMap((marks, group) => {
    const last = [...marks].sort((a, b) => a.across - b.across).at(-1);
    const name = groups[group];
    return last === undefined || name === undefined ? [] : [{ group, name, y: layout.y(last.up) }];
  });
  const centres = spreadLabels(
    ends.map(({ y }) => ({ wanted: y, height: 17 })),
    { top: -8, bottom: layout.height + 8 },
  );
  const room = { size: textSize.label, weight: 600, width: Math.max(40, layout.right * 0.42) };
  return ends.map(({ group, name }, i) => {
    const text = fitText(plainText(name), room);
    const row = { x: layout.right + endGap - 4, y: centres[i]! + 4, text };
    return texts([row], [groupStyles(group).hue, "strong"]);
  });
}
