import { html, LitElement, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { isSame } from "../../recalculation/is-same.ts";
import type { Arrangement } from "../cases-protocol.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";
import { inRem, textScale } from "../look/text-scale.ts";
import type { CasesView } from "../protocol.ts";
import { CasePages } from "./case-pages.ts";
import { DrawnRows, rowHeight } from "./drawn-rows.ts";
import { headingCell, lineCell, type Marks, valueCell } from "./grid-cells.ts";
import { GridClipboard } from "./grid-clipboard.ts";
import {
  columnsInSight,
  columnsOf,
  type GridColumn,
  gridColumns,
  orderMoved,
  widthOf,
} from "./grid-columns.ts";
import { GridFocus } from "./grid-focus.ts";
import { gridLook } from "./grid-look.ts";
import { type GridPlace, movedPlace, stepAside } from "./grid-place.ts";
import { tellLeaf } from "./leaf-act.ts";
import { type MarkedRange, rangeBetween } from "./marked-range.ts";
import { nextSort } from "./next-sort.ts";
import { withOwn } from "./with-own.ts";

/** Columns drawn at most. */
const mostColumns = 60;

/** The rows as a grid: only what is in sight is drawn; keys move the value that has focus. */
@customElement("case-grid")
export class CaseGrid extends LitElement {
  static override styles = [base, gridLook];

  @property({ attribute: false }) cases!: CasesView;
  @property({ attribute: false }) host: Host | undefined;
  @property({ attribute: false }) arrangement: Arrangement = {};
  @property({ attribute: false }) hiddenColumns: ReadonlySet<string> = new Set();
  @property({ attribute: false }) columnOrder: readonly string[] = [];
  @query(".grid") readonly grid!: HTMLElement;
  @state() private place: GridPlace = { row: 0, column: 0 };
  /** The other corner of what is marked; the place itself where nothing is. */
  @state() private anchor: GridPlace = { row: 0, column: 0 };
  @state() private sight: readonly [first: number, behind: number] = [0, 20];
  pages: CasePages | undefined;
  columns: readonly GridColumn[] = [];
  readonly #clipboard = new GridClipboard(this);
  readonly #focus = new GridFocus(this);
  readonly #rows = new DrawnRows(this);

  get rowCount(): number {
    return this.pages?.counted?.count ?? this.cases.casesKept;
  }

  get marked(): MarkedRange {
    return rangeBetween(this.anchor, this.place);
  }

  get at(): GridPlace {
    return this.place;
  }

  override render(): TemplateResult {
    const marks = this.#marks();
    return html`<p class="heard-only" id="help">${labels.gridHelp}</p>
      <div
        class="grid"
        role="grid"
        tabindex="-1"
        aria-label=${labels.rowsOf(this.cases.file)}
        aria-describedby="help"
        aria-multiselectable="true"
        aria-rowcount=${this.rowCount + 1}
        aria-colcount=${this.columns.length + 1}
        style="--width: ${inRem(widthOf(this.columns))}; --rows: ${this.cases.casesKept}"
        @keydown=${(event: KeyboardEvent) => this.#key(event)}
        @click=${(event: MouseEvent) => this.#click(event)}
        @dblclick=${() => this.#enter()}
        @copy=${(event: ClipboardEvent) => this.#clipboard.copy(event)}
        @paste=${(event: ClipboardEvent) => void this.#clipboard.paste(event)}
        @scroll=${() => this.#look()}
      >
        <div role="row" class="row head" aria-rowindex="1">
          ${headingCell(undefined, 0, marks)}
          ${this.#drawnColumns().map((i) => headingCell(this.columns[i], i + 1, marks))}
        </div>
        <div role="presentation" class="all" style="height: ${this.rowCount * rowHeight()}px">
          ${this.#rows.items.map(({ index, start }) => this.#row(index, start))}
        </div>
      </div>`;
  }

  /** Goes to a place and brings it into sight; with the keyboard only where asked. */
  async goTo(place: GridPlace, { focus }: { readonly focus: boolean }): Promise<void> {
    this.place = place;
    this.anchor = place;
    await this.#show(focus);
  }

  /** Takes the keyboard where nothing has it: the value that had it was drawn anew meanwhile. */
  holdFocus(): void {
    if (document.activeElement === document.body) this.#focus.take();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    const isOther = changed.has("host") || changed.has("arrangement");
    if ((isOther || changed.has("cases")) && this.host !== undefined) {
      const isAlike = !isOther && hasSameColumns(changed.get("cases"), this.cases);
      this.pages = new CasePages({
        host: this.host,
        arrangement: this.arrangement,
        arrived: () => this.#arrived(),
        before: isAlike ? this.pages : undefined,
      });
    }
    if (columnsChanged(changed)) {
      const choice = { hidden: this.hiddenColumns, order: this.columnOrder };
      this.columns = gridColumns(columnsOf(this.cases), choice);
    }
    this.place = this.#within(this.place);
    this.anchor = this.#within(this.anchor);
  }

  protected override updated(changed: PropertyValues<this>): void {
    if (columnsChanged(changed)) this.#look();
  }

  #arrived(): void {
    this.requestUpdate();
    tellLeaf(this, { does: "count", counted: this.pages?.counted });
  }

  #within(place: GridPlace): GridPlace {
    const { rowCount, columns } = this;
    if (place.row <= rowCount && place.column <= columns.length) return place;
    const { row, column } = place;
    return { row: Math.min(row, rowCount), column: Math.min(column, columns.length) };
  }

  #look(): void {
    const { scrollLeft, clientWidth } = this.grid;
    const scale = textScale();
    const sight = { from: scrollLeft / scale, width: clientWidth / scale };
    const [first, behind] = columnsInSight(this.columns, sight);
    if (first !== this.sight[0] || behind !== this.sight[1]) this.sight = [first, behind];
  }

  #drawnColumns(): number[] {
    const [first, behind] = this.sight;
    const last = Math.min(behind, first + mostColumns, this.columns.length);
    const inSight = Array.from({ length: Math.max(0, last - first) }, (_, i) => first + i);
    return withOwn(inSight, this.place.column - 1);
  }

  #row(index: number, start: number): TemplateResult {
    const row = this.pages?.drawn(index);
    const marks = this.#marks();
    const shown = row === undefined ? [] : this.#drawnColumns();
    return html`<div
      role="row"
      class="row"
      aria-rowindex=${index + 2}
      style="transform: translateY(${start}px)"
    >
      ${lineCell(row, index + 1, marks)}
      ${shown.map((i) => valueCell({ of: row!, column: this.columns[i]!, place: { row: index + 1, column: i + 1 } }, marks))}
    </div>`;
  }

  #marks(): Marks {
    const { place, anchor, marked } = this;
    const isRange = anchor.row !== place.row || anchor.column !== place.column;
    return { at: place, marked, isRange, sort: this.arrangement.sort };
  }

  #key(event: KeyboardEvent): void {
    if (event.key === "Enter") {
      event.preventDefault();
      this.#enter();
      return;
    }
    const aside = event.ctrlKey && this.place.row === 0 ? stepAside(event.key) : undefined;
    if (aside !== undefined) {
      event.preventDefault();
      void this.#moveColumn(aside);
      return;
    }
    const pageRows = Math.max(1, this.#rows.inSight - 2);
    const size = { rows: this.rowCount, columns: this.columns.length, pageRows };
    const place = movedPlace(this.place, event, size);
    if (place === undefined) return;
    event.preventDefault();
    void this.#moveTo(place, event.shiftKey);
  }

  #click(event: MouseEvent): void {
    const cell = (event.target as HTMLElement).closest<HTMLElement>("[data-place]");
    const [row, column] = (cell?.dataset.place ?? "").split(" ").map(Number);
    if (row === undefined || column === undefined) return;
    void this.#moveTo({ row, column }, event.shiftKey);
    if (row === 0) this.#sort();
  }

  #enter(): void {
    if (this.place.row === 0) {
      this.#sort();
      return;
    }
    const row = this.pages?.row(this.place.row - 1);
    const column = this.columns[this.place.column - 1];
    if (row === undefined || column === undefined) return;
    const { line, file } = row;
    const value = { line, ...(file !== undefined && { file }), field: column.name };
    tellLeaf(this, { does: "correct", values: [value] });
  }

  #sort(): void {
    const column = this.columns[this.place.column - 1]?.name;
    tellLeaf(this, { does: "arrange", arrangement: nextSort(this.arrangement, column) });
  }

  /** Sets the column whose heading has focus one place aside, and stays with it. */
  async #moveColumn(by: number): Promise<void> {
    const { columns, columnOrder: order } = this;
    const from = this.place.column - 1;
    const to = from + by;
    const [moved, beside] = [columns[from], columns[to]];
    if (moved === undefined || beside === undefined) return;
    const all = columnsOf(this.cases);
    tellLeaf(this, { does: "order", columns: orderMoved(all, columns, { order, from, to }) });
    tellLeaf(this, { does: "say", text: labels.movedColumn(moved.label, to + 1, columns.length) });
    await this.#moveTo({ row: 0, column: to + 1 }, false);
  }

  async #moveTo(place: GridPlace, extends_: boolean): Promise<void> {
    this.place = place;
    if (!extends_) this.anchor = place;
    await this.#show(true);
  }

  async #show(focus: boolean): Promise<void> {
    await this.updateComplete;
    const { row, column } = this.place;
    if (row > 0) this.#rows.show(row - 1);
    await new Promise(requestAnimationFrame);
    await this.updateComplete;
    if (this.place.row !== row || this.place.column !== column) return;
    if (focus) this.#focus.take();
    const cell = this.grid.querySelector<HTMLElement>(`[data-place="${row} ${column}"]`);
    cell?.scrollIntoView({ block: "nearest", inline: "nearest" });
    // The lines stay in sight, so that bringing them there scrolls nothing.
    if (column === 0) this.grid.scrollLeft = 0;
    if (!focus) this.grid.scrollIntoView({ block: "nearest" });
  }
}

/** The same file, with nothing about its columns changed: a value in it was corrected. */
function hasSameColumns(one: CasesView | undefined, other: CasesView): boolean {
  if (one === undefined || one.file !== other.file) return false;
  return isSame(columnsOf(one), columnsOf(other));
}

function columnsChanged(changed: PropertyValues<CaseGrid>): boolean {
  return (["cases", "hiddenColumns", "columnOrder"] as const).some((name) => changed.has(name));
}

declare global {
  interface HTMLElementTagNameMap {
    "case-grid": CaseGrid;
  }
}
