import { html, nothing, type TemplateResult } from "lit";
import type { Arrangement, CaseRow } from "../cases-protocol.ts";
import { labels } from "../labels.ts";
import { inRem } from "../look/text-scale.ts";
import type { GridColumn } from "./grid-columns.ts";
import type { GridPlace } from "./grid-place.ts";
import { isInRange, type MarkedRange } from "./marked-range.ts";

/** What the reader has done to the grid, as far as its cells show it. */
export interface Marks {
  /** The cell with focus. */
  readonly at: GridPlace;
  readonly marked: MarkedRange;
  /** More than the cell with focus is marked. */
  readonly isRange: boolean;
  readonly sort: Arrangement["sort"];
}

/** The heading of a column, and of the lines at place 0, where there is none. */
export function headingCell(
  column: GridColumn | undefined,
  place: number,
  marks: Marks,
): TemplateResult {
  const text = column?.label ?? labels.line;
  const isSorted = column !== undefined && marks.sort?.column === column.name;
  const isFalling = marks.sort?.descending ?? false;
  return html`<div
    role="columnheader"
    aria-colindex=${place + 1}
    aria-sort=${isSorted ? (isFalling ? "descending" : "ascending") : nothing}
    tabindex=${isHere(marks, { row: 0, column: place }) ? 0 : -1}
    data-place="0 ${place}"
    title=${text}
    style=${column === undefined ? "" : `left:${inRem(column.left)};width:${inRem(column.width)}`}
  >
    ${text}${isSorted ? html` <span aria-hidden="true">${isFalling ? "↓" : "↑"}</span>` : nothing}
  </div>`;
}

/** The line that a row stands in; a row on its way has none yet. */
export function lineCell(row: CaseRow | undefined, place: number, marks: Marks): TemplateResult {
  return html`<div
    role="rowheader"
    aria-colindex="1"
    tabindex=${isHere(marks, { row: place, column: 0 }) ? 0 : -1}
    data-place="${place} 0"
    title=${row?.file ?? nothing}
  >
    ${row === undefined ? "…" : row.line}
  </div>`;
}

export interface ShownValue {
  readonly of: CaseRow;
  readonly column: GridColumn;
  readonly place: GridPlace;
}

/** A value, with what was queried and corrected of it. */
export function valueCell({ of, column, place }: ShownValue, marks: Marks): TemplateResult {
  const text = of.texts[column.position] ?? "";
  const isQueried = of.queried?.includes(column.position) ?? false;
  const isCorrected = of.corrected?.includes(column.position) ?? false;
  const here = isHere(marks, place);
  const classes = [here && "here", isQueried && "queried", isCorrected && "corrected"];
  const said = [isQueried && labels.hasQuery, isCorrected && labels.hasCorrection];
  return html`<div
    role="gridcell"
    class=${classes.filter(Boolean).join(" ") || nothing}
    aria-colindex=${place.column + 1}
    aria-selected=${marks.isRange && isInRange(marks.marked, place) ? "true" : "false"}
    aria-description=${said.filter(Boolean).join(", ") || nothing}
    tabindex=${here ? 0 : -1}
    data-place="${place.row} ${place.column}"
    title=${text}
    style="left:${inRem(column.left)};width:${inRem(column.width)}"
  >
    ${text}
  </div>`;
}

function isHere({ at }: Marks, place: GridPlace): boolean {
  return at.row === place.row && at.column === place.column;
}
