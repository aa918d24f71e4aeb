import type { ValueCorrected } from "../cases-protocol.ts";
import { labels } from "../labels.ts";
import { type CasePages, mostRows } from "./case-pages.ts";
import type { GridColumn } from "./grid-columns.ts";
import type { GridPlace } from "./grid-place.ts";
import { tellLeaf } from "./leaf-act.ts";
import { type MarkedRange, tabbedText, textsOf } from "./marked-range.ts";

/** The grid, as far as copying and pasting need it. */
interface Copied extends EventTarget {
  readonly pages: CasePages | undefined;
  readonly columns: readonly GridColumn[];
  readonly rowCount: number;
  readonly marked: MarkedRange;
  readonly at: GridPlace;
}

/** Puts what is marked on the clipboard, as texts parted by tabs. */
export function copyRange(grid: Copied, event: ClipboardEvent): void {
  event.preventDefault();
  const { rows, columns } = grid.marked;
  if (rows[1] - rows[0] >= mostRows) {
    say(grid, labels.copyTooMany(mostRows));
    return;
  }
  const shown = grid.columns.slice(columns[0] - 1, columns[1]);
  const texts: string[][] = [];
  let isWhole = true;
  for (let row = rows[0]; row <= rows[1]; row++) {
    const found = grid.pages?.row(row - 1);
    isWhole &&= found !== undefined;
    texts.push(shown.map(({ position }) => found?.texts[position] ?? ""));
  }
  if (!isWhole) {
    say(grid, labels.copyNotYet);
    return;
  }
  event.clipboardData?.setData("text/plain", tabbedText(texts));
  say(grid, labels.copiedRange(texts.length, shown.length));
}

export interface Pasted {
  readonly values: readonly ValueCorrected[];
  /** Values that fell outside the rows and columns shown. */
  readonly outside: number;
}

/** What a paste at the upper left of what is marked would correct. */
export function pasteOver(grid: Copied, event: ClipboardEvent): Pasted {
  event.preventDefault();
  // The page takes a pasted table for cases; over the grid it is corrections.
  event.stopPropagation();
  const texts = textsOf(event.clipboardData?.getData("text/plain") ?? "");
  const { rows, columns } = grid.marked;
  const values: ValueCorrected[] = [];
  let outside = 0;
  texts.forEach((line, down) => {
    line.forEach((to, across) => {
      const row = grid.pages?.row(rows[0] + down - 1);
      const column = grid.columns[columns[0] + across - 1];
      const isInside = rows[0] + down <= grid.rowCount && grid.at.row > 0 && grid.at.column > 0;
      if (!isInside || row === undefined || column === undefined) outside++;
      else {
        const { line: at, file } = row;
        values.push({ line: at, ...(file !== undefined && { file }), field: column.name, to });
      }
    });
  });
  return { values, outside };
}

/** Asks for the reason of what was pasted, and says what is left out. */
export function tellPasted(grid: Copied, { values, outside }: Pasted): void {
  if (outside > 0) say(grid, labels.pasteOutside(outside));
  if (values.length > 0) tellLeaf(grid, { does: "correct", values });
}

function say(grid: EventTarget, text: string): void {
  tellLeaf(grid, { does: "say", text });
}
