import {
  elementScroll,
  observeElementOffset,
  observeElementRect,
  Virtualizer,
} from "@tanstack/virtual-core";
import { html, LitElement, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";
import type { CasesView } from "../protocol.ts";
import { CasePages } from "./case-pages.ts";
import { gridLook } from "./grid-look.ts";
import { type GridPlace, movedPlace } from "./grid-place.ts";

const rowHeight = 27;
/** Rows drawn at most, whatever the layout says. */
const mostDrawn = 150;

/** The rows as a grid: only those in sight are drawn; arrow keys move the cell that has focus. */
@customElement("case-grid")
export class CaseGrid extends LitElement {
  static override styles = [base, gridLook];

  @property({ attribute: false }) cases!: CasesView;
  @property({ attribute: false }) host: Host | undefined;
  @query(".grid") private readonly grid!: HTMLElement;
  @state() private place: GridPlace = { row: 0, column: 0 };
  #pages: CasePages | undefined;
  #virtualizer: Virtualizer<HTMLElement, HTMLElement> | undefined;
  #unmount: (() => void) | undefined;

  override render(): TemplateResult {
    const headings = [labels.line, ...this.cases.headings];
    const count = this.cases.casesKept;
    const drawn = (this.#virtualizer?.getVirtualItems() ?? []).slice(0, mostDrawn);
    return html`<div
      class="grid"
      role="grid"
      aria-label=${labels.rowsOf(this.cases.file)}
      aria-rowcount=${count + 1}
      aria-colcount=${headings.length}
      style="--columns: ${headings.map(columnWidth).join(" ")}"
      @keydown=${(event: KeyboardEvent) => this.#key(event)}
    >
      <div role="row" class="row head" aria-rowindex="1">
        ${headings.map((text, i) => this.#heading(text, i))}
      </div>
      <div role="presentation" class="all" style="height: ${count * rowHeight}px">
        ${drawn.map(({ index, start }) => this.#row(index, start))}
      </div>
    </div>`;
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#unmount?.();
    this.#virtualizer = undefined;
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if ((changed.has("cases") || changed.has("host")) && this.host !== undefined) {
      this.#pages = new CasePages(this.host, () => this.requestUpdate());
    }
  }

  protected override updated(): void {
    const options = this.#options();
    if (this.#virtualizer === undefined) {
      this.#virtualizer = new Virtualizer(options);
      this.#unmount = this.#virtualizer._didMount();
    } else this.#virtualizer.setOptions(options);
    this.#virtualizer._willUpdate();
  }

  #options() {
    return {
      count: this.cases.casesKept,
      getScrollElement: () => this.grid,
      estimateSize: () => rowHeight,
      overscan: 6,
      observeElementRect,
      observeElementOffset,
      scrollToFn: elementScroll,
      onChange: () => this.requestUpdate(),
    };
  }

  #heading(text: string, column: number): TemplateResult {
    const focused = this.place.row === 0 && this.place.column === column;
    return html`<div
      role="columnheader"
      aria-colindex=${column + 1}
      tabindex=${focused ? 0 : -1}
      data-place="0 ${column}"
    >
      ${text}
    </div>`;
  }

  #row(index: number, start: number): TemplateResult {
    const row = this.#pages?.row(index);
    const texts = row === undefined ? ["…"] : [String(row.line), ...row.texts];
    return html`<div
      role="row"
      class="row"
      aria-rowindex=${index + 2}
      style="transform: translateY(${start}px)"
    >
      ${texts.map((text, column) => {
        const focused = this.place.row === index + 1 && this.place.column === column;
        return html`<div
          role=${column === 0 ? "rowheader" : "gridcell"}
          aria-colindex=${column + 1}
          tabindex=${focused ? 0 : -1}
          data-place="${index + 1} ${column}"
          title=${text}
        >
          ${text}
        </div>`;
      })}
    </div>`;
  }

  #key(event: KeyboardEvent): void {
    const pageRows = Math.max(1, Math.floor(this.grid.clientHeight / rowHeight) - 2);
    const place = movedPlace(this.place, event, {
      rows: this.cases.casesKept,
      columns: this.cases.headings.length,
      pageRows,
    });
    if (place === undefined) return;
    event.preventDefault();
    void this.#moveTo(place);
  }

  async #moveTo(place: GridPlace): Promise<void> {
    this.place = place;
    if (place.row > 0) this.#virtualizer?.scrollToIndex(place.row - 1, { align: "auto" });
    await this.updateComplete;
    await new Promise(requestAnimationFrame);
    await this.updateComplete;
    const cell = this.grid.querySelector<HTMLElement>(
      `[data-place="${place.row} ${place.column}"]`,
    );
    cell?.focus({ preventScroll: true });
    cell?.scrollIntoView({ block: "nearest", inline: "nearest" });
  }
}

function columnWidth(heading: string, position: number): string {
  return position === 0 ? "64px" : `${Math.min(Math.max(heading.length * 8 + 24, 88), 200)}px`;
}

declare global {
  interface HTMLElementTagNameMap {
    "case-grid": CaseGrid;
  }
}
