import { boxes, type Layer, type SegmentRow, segments, symbols } from "./layers.ts";
import type { Spread, TableMark } from "./table-drawing.ts";
import type { TableLayout } from "./table-layout.ts";
import { groupStyles } from "./theme.ts";

/** Quartiles as a box with the median in it, whiskers, and what lies beyond as points. */
export function boxLayers(
  marks: readonly TableMark[],
  { layout, group }: { readonly layout: TableLayout; readonly group: number },
): readonly Layer[] {
  const { hue } = groupStyles(group);
  const { y } = layout;
  const half = Math.min(28, layout.thickness * 0.4);
  const spread = marks.flatMap((mark) =>
    mark.spread === undefined || mark.up === null
      ? []
      : [{ ...mark.spread, middle: mark.up, x: layout.x(mark), pick: mark.pick }],
  );
  const bodies = spread.map(({ x, lower, upper, pick }) => {
    return { x: x - half, x2: x + half, y: y(upper), y2: y(lower), pick };
  });
  const medians = spread.map(({ x, middle, pick }) => {
    return { ...level(x, y(middle), half), pick };
  });
  const beyond = spread.flatMap((each) =>
    each.beyond.map(({ up, pick }) => ({ x: each.x, y: y(up), pick })),
  );
  return [
    boxes(bodies, [hue, "band"]),
    segments(
      spread.flatMap((each) => outline(each, { half, y })),
      [hue],
    ),
    segments(medians, [hue, "curve"]),
    symbols(beyond, { shape: "circle", size: 18 }, [hue]),
  ];
}

/** The four sides of the box, the two whiskers and their ends. */
function outline(
  { x, lower, upper, least, most }: Spread & { readonly x: number },
  { half, y }: { readonly half: number; readonly y: (up: number) => number },
): SegmentRow[] {
  const upright = (at: number, from: number, to: number) => {
    return { x: at, x2: at, y: y(from), y2: y(to) };
  };
  return [
    upright(x - half, lower, upper),
    upright(x + half, lower, upper),
    ...[lower, upper].map((at) => level(x, y(at), half)),
    ...[least, most].map((at) => level(x, y(at), half / 2)),
    upright(x, least, lower),
    upright(x, upper, most),
  ];
}

function level(x: number, y: number, reach: number): SegmentRow {
  return { x: x - reach, x2: x + reach, y, y2: y };
}
