import { isSame } from "../../recalculation/is-same.ts";
import type { CaseRow, TextRange, ValueCorrected } from "../cases-protocol.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import type { CasePages } from "./case-pages.ts";
import type { GridColumn } from "./grid-columns.ts";
import type { GridPlace } from "./grid-place.ts";
import { tellLeaf } from "./leaf-act.ts";
import type { MarkedRange } from "./marked-range.ts";
import { tabbedLine, textsIn } from "./tabbed-text.ts";

/** The grid, as far as copying and pasting need it. */
interface Copied extends EventTarget {
  readonly host: Host | undefined;
  readonly pages: CasePages | undefined;
  readonly columns: readonly GridColumn[];
  readonly rowCount: number;
  readonly marked: MarkedRange;
  readonly at: GridPlace;
}

/** What was fetched for the clipboard, of which rows it was. */
interface Fetched {
  readonly pages: CasePages;
  readonly range: TextRange;
  readonly text: string;
}

/** Copies what is marked as text that pastes into a spreadsheet, and pastes it as corrections. */
export class GridClipboard {
  readonly #grid: Copied;
  #fetched: Fetched | undefined;

  constructor(grid: Copied) {
    this.#grid = grid;
  }

  /** At once where the rows are at hand; else they are fetched first, however many they are. */
  copy(event: ClipboardEvent): void {
    event.preventDefault();
    const { pages } = this.#grid;
    const range = this.#range(pages);
    if (pages === undefined || range === undefined) {
      this.#say(labels.copyNothing);
      return;
    }
    const text = this.#textAtHand(pages, range);
    if (text === undefined) void this.#fetch(pages, range);
    else {
      event.clipboardData?.setData("text/plain", text);
      this.#sayCopied(range);
    }
  }

  /** Asks for the reason of what is pasted over the values from the first that is marked. */
  async paste(event: ClipboardEvent): Promise<void> {
    event.preventDefault();
    // The page takes a pasted table for cases; over the grid it is corrections.
    event.stopPropagation();
    const tabbed = event.clipboardData?.getData("text/plain") ?? "";
    const { host, pages, at, marked, columns } = this.#grid;
    if (tabbed === "" || host === undefined || pages === undefined) return;
    const texts = textsIn(tabbed);
    const from = marked.rows[0] - 1;
    const isOverValues = at.row > 0 && at.column > 0;
    const { arrangement } = pages;
    const asked = { ask: "arranged rows", arrangement, from, count: texts.length } as const;
    const { rows } = isOverValues ? await host.ask(asked) : { rows: [] };
    const values = pastedOver({ texts, rows, columns: columns.slice(marked.columns[0] - 1) });
    const outside = writtenIn(texts.flat()) - writtenIn(values.map(({ to }) => to));
    if (outside > 0) this.#say(labels.pasteOutside(outside));
    if (values.length > 0) tellLeaf(this.#grid, { does: "correct", values });
  }

  #range(pages: CasePages | undefined): TextRange | undefined {
    const { rows, columns } = this.#grid.marked;
    const shown = this.#grid.columns.slice(columns[0] - 1, columns[1]);
    if (pages === undefined || rows[1] < rows[0] || shown.length === 0) return undefined;
    const { arrangement } = pages;
    const names = shown.map(({ name }) => name);
    return { arrangement, rows: [rows[0] - 1, rows[1] - 1], columns: names };
  }

  #textAtHand(pages: CasePages, range: TextRange): string | undefined {
    const fetched = this.#fetched;
    if (fetched?.pages === pages && isSame(fetched.range, range)) return fetched.text;
    const shown = this.#grid.columns.filter(({ name }) => range.columns.includes(name));
    const lines: string[] = [];
    for (let position = range.rows[0]; position <= range.rows[1]; position++) {
      const row = pages.rowAtHand(position);
      if (row === undefined) return undefined;
      lines.push(tabbedLine(shown.map((column) => row.texts[column.position] ?? "")));
    }
    return lines.join("\n");
  }

  async #fetch(pages: CasePages, range: TextRange): Promise<void> {
    const { host } = this.#grid;
    if (host === undefined) return;
    this.#say(labels.copying(range.rows[1] - range.rows[0] + 1));
    const { text } = await host.ask({ ask: "range text", range });
    try {
      await navigator.clipboard.writeText(text);
      this.#sayCopied(range);
    } catch {
      // This browser lets a page write only while it copies: the rows are at hand for that now.
      this.#fetched = { pages, range, text };
      this.#say(labels.copyOnceMore);
    }
  }

  #sayCopied({ rows, columns }: TextRange): void {
    this.#say(labels.copiedRange(rows[1] - rows[0] + 1, columns.length));
  }

  #say(text: string): void {
    tellLeaf(this.#grid, { does: "say", text });
  }
}

/** How many say something: an empty place that falls outside is no loss. */
function writtenIn(texts: readonly string[]): number {
  return texts.filter((text) => text !== "").length;
}

interface Over {
  readonly texts: readonly (readonly string[])[];
  /** Rows from the first that is pasted over, as many as there are. */
  readonly rows: readonly CaseRow[];
  /** Columns from the first that is pasted over. */
  readonly columns: readonly GridColumn[];
}

/** What a paste would correct; texts beyond the rows and columns that are shown are left out. */
function pastedOver({ texts, rows, columns }: Over): readonly ValueCorrected[] {
  return rows.flatMap(({ line, file }, down) =>
    columns.slice(0, texts[down]?.length ?? 0).map(({ name }, across) => {
      const to = texts[down]?.[across] ?? "";
      return { line, ...(file !== undefined && { file }), field: name, to };
    }),
  );
}
