import { paperPalette } from "../../charts/palette.ts";
import type { PresentationSlide, TableCell, TableCellLook } from "./presentation.ts";
import type { FittedTable, Place } from "./slide.ts";
import { cellMargin } from "./table-fit.ts";
import { lineSpacing } from "./text-fit.ts";

/** A table of the presentation with the widths and heights that were measured for it. */
export function addTable(
  slide: PresentationSlide,
  { columns, rows, points, widths, heights }: FittedTable,
  { x, y, width, height, fontFace }: Place & { readonly fontFace: string },
): void {
  const { down, across } = cellMargin;
  const rule = (color: string) => ({ type: "solid", pt: 0.5, color: color.slice(1) }) as const;
  const none = { type: "none" } as const;
  const cell = (text: string, at: number, isHead: boolean): TableCell => ({
    text,
    options: {
      bold: isHead,
      align: columns[at]?.isText === false ? "right" : "left",
      valign: isHead ? "bottom" : "top",
      border: [none, none, rule(isHead ? paperPalette.ink : paperPalette.hairline), none],
      margin: [down, across, down, across],
      lineSpacing: points * lineSpacing,
    } as TableCellLook,
  });
  const head = columns.map(({ label }, at) => cell(label, at, true));
  const lines = rows.map((row) => row.map((text, at) => cell(text, at, false)));
  slide.addTable([head, ...lines], {
    ...{ x, y, w: width, h: height, colW: [...widths], rowH: [...heights] },
    ...{ fontFace, fontSize: points, color: paperPalette.ink.slice(1), autoPage: false },
  });
}
