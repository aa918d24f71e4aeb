import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { repeat } from "lit/directives/repeat.js";
import { formatProblem } from "../../problem/format-problem.ts";
import { send } from "../act.ts";
import { type BookState, cellOrder, closedBook } from "../host/book-state.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";
import type { BlockView, CellView } from "../protocol.ts";
import { stepFrom } from "./cell-steps.ts";
import "./prose-block.ts";
import { rowWidths } from "./row-widths.ts";
import "./sheet-cell.ts";

const steps = ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Home", "End"];

/** The sheet: the notebook's prose, and between it rows of one to four cells side by side. */
@customElement("sheet-leaf")
export class SheetLeaf extends LitElement {
  static override styles = [
    base,
    css`
      .sheet {
        padding: 0 16px 28px;
      }

      .row {
        display: grid;
        grid-template-columns: var(--widths);
        border-bottom: 1px solid var(--hairline);
        overflow: clip;
      }

      .row > sheet-cell:focus-visible {
        outline-offset: -2px;
      }

      prose-block,
      pre {
        padding-inline: 12px;
      }

      /* Lines between neighbours, however they wrap: the row cuts off those at its own edges. */
      sheet-cell {
        box-shadow:
          -1px 0 0 var(--hairline),
          0 -1px 0 var(--hairline);
      }

      prose-block + .row {
        border-top: 1px solid var(--hairline);
      }

      pre {
        font: 13px / 1.4 var(--fixed);
        white-space: pre-wrap;
      }

      .caution {
        padding: 18px 12px 0;
        color: var(--ink-soft);
      }

      @media (max-width: 1100px) {
        .row {
          grid-template-columns: repeat(auto-fit, minmax(min(100%, 420px), 1fr));
        }
      }

      @media (max-width: 700px) {
        .sheet {
          padding-inline: 4px;
        }
      }

      @media print {
        .sheet {
          padding: 0;
        }
      }
    `,
  ];

  @property({ attribute: false }) book: BookState = closedBook;

  override render(): TemplateResult {
    const { notebook } = this.book;
    if (notebook === undefined) return html``;
    return html`<section
      class="sheet"
      aria-label=${labels.sheetName}
      @keydown=${(event: KeyboardEvent) => this.#key(event)}
      @focusin=${(event: FocusEvent) => this.#focused(event)}
    >
      ${notebook.problems.map((problem) => html`<pre>${formatProblem(problem)}</pre>`)}
      ${cellOrder(notebook).length === 0 ? html`<p>${labels.emptySheet}</p>` : nothing}
      ${repeat(notebook.blocks, blockKey, (block) => this.#block(block))}
      <p class="caution">${labels.caution}</p>
    </section>`;
  }

  /** Brings what has the keyboard back into sight, where the desk came up over it. */
  keepFocusInSight(): void {
    let focused: Element | null =
      this.renderRoot instanceof ShadowRoot ? this.renderRoot.activeElement : null;
    while (focused?.shadowRoot?.activeElement) focused = focused.shadowRoot.activeElement;
    focused?.scrollIntoView({ block: "nearest" });
  }

  /** Puts the keyboard on the chosen cell. */
  focusChosen(): void {
    const chosen = this.#cells().find((cell) => cell.view.name === this.book.chosen);
    chosen?.focus();
    chosen?.scrollIntoView({ block: "nearest" });
  }

  #block(block: BlockView): TemplateResult {
    if (block.type === "prose") return html`<prose-block .text=${block.text}></prose-block>`;
    if (block.type === "heading") {
      return html`<prose-block .text=${block.text} .level=${block.level}></prose-block>`;
    }
    const views = block.cells.map((name) => this.book.cells.get(name));
    return html`<div class="row" style="--widths: ${rowWidths(views)}">
      ${repeat(
        views.filter((view) => view !== undefined),
        (view) => view.name,
        (view) => this.#cell(view),
      )}
    </div>`;
  }

  #cell(view: CellView): TemplateResult {
    const { chosen, picked, notebook, dark } = this.book;
    const stop = chosen ?? cellOrder(notebook)[0];
    const isChosen = view.name === chosen;
    return html`<sheet-cell
      role="article"
      tabindex=${view.name === stop ? 0 : -1}
      aria-label="${view.name}, ${view.nature}${
        view.status === "current" ? "" : `, ${labels.status[view.status]}`
      }"
      aria-current=${isChosen ? "true" : nothing}
      ?chosen=${isChosen}
      .view=${view}
      .picked=${picked?.cell === view.name ? picked.key : ""}
      .dark=${dark}
    ></sheet-cell>`;
  }

  #cells(): readonly (HTMLElement & { view: CellView })[] {
    return [...this.renderRoot.querySelectorAll("sheet-cell")];
  }

  #focused(event: FocusEvent): void {
    const cell = (event.target as Element).closest("sheet-cell");
    if (cell !== null) send(this, { act: "choose", cell: cell.view.name });
  }

  #key(event: KeyboardEvent): void {
    const cell = (event.target as Element).closest("sheet-cell");
    if (cell === null) return;
    if (event.key === "Escape") cell.focus();
    if (event.composedPath()[0] !== cell || event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key === "Enter") send(this, { act: "choose", cell: cell.view.name, enter: true });
    else if (steps.includes(event.key)) this.#step(cell.view.name, event.key);
    else return;
    event.preventDefault();
  }

  #step(from: string, key: string): void {
    const cells = this.#cells();
    const tops = [...new Set(cells.map((cell) => cell.getBoundingClientRect().top))];
    const placed = cells.map((cell) => {
      const box = cell.getBoundingClientRect();
      return {
        name: cell.view.name,
        row: tops.indexOf(box.top),
        middle: (box.left + box.right) / 2,
      };
    });
    const to = stepFrom(placed, from, key);
    const next = cells.find((cell) => cell.view.name === to);
    next?.focus();
    next?.scrollIntoView({ block: "nearest" });
  }
}

function blockKey(block: BlockView, position: number): string {
  return block.type === "row" ? `row ${block.cells[0]}` : `${block.type} ${position}`;
}

declare global {
  interface HTMLElementTagNameMap {
    "sheet-leaf": SheetLeaf;
  }
}
