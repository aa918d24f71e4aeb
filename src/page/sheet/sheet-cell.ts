import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { AnswerTable } from "../../questions/answer.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";
import type { CellView, MinutedView } from "../protocol.ts";
import "./answer-table.ts";
import "./cell-answer.ts";
import "./cell-fault.ts";
import "./cell-setting.ts";

/** One cell of the sheet: in its margin the name, the nature and the state; beside it, its worth. */
@customElement("sheet-cell")
export class SheetCell extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        container-type: inline-size;
        border-left: 3px solid transparent;
        padding: 14px 18px 14px 9px;
        min-width: 0;
        position: relative;
      }

      .edge {
        position: absolute;
        inset: 0 0 0 auto;
        width: 9px;
        cursor: col-resize;
        touch-action: none;
      }

      .edge:hover {
        background: linear-gradient(to left, var(--edge-strong) 3px, transparent 3px);
      }

      /* Where the window is narrow, cells take the room there is. */
      @media (max-width: 68.75rem) {
        .edge {
          display: none;
        }
      }

      :host([chosen]) {
        background: var(--leaf);
        border-left-color: var(--ink);
      }

      :host(:focus-visible) {
        outline: 2px solid var(--ink);
        outline-offset: -2px;
      }

      .cell {
        display: grid;
        grid-template-columns: 7rem minmax(0, 1fr);
        gap: 6px 16px;
      }

      .margin {
        font-size: 0.84375rem;
        line-height: 1.3;
        overflow-wrap: anywhere;
      }

      .name {
        color: var(--ink-soft);
        cursor: grab;
        touch-action: none;
        user-select: none;
      }

      :host([chosen]) .name {
        color: var(--ink);
        font-weight: 600;
      }

      .nature {
        color: var(--margin-note);
        font-size: 0.78125rem;
      }

      .state {
        display: inline-block;
        margin-top: 4px;
        padding: 0 5px;
        border: 1px solid var(--edge-strong);
        border-radius: 2px;
        font-size: 0.75rem;
      }

      .state.fault {
        background: var(--ink);
        border-color: var(--ink);
        color: var(--paper);
        print-color-adjust: exact;
      }

      .state.recalculating {
        border-style: dashed;
      }

      /* Most cells are done before the eye can see that they were not. */
      .state.recalculating {
        animation: chip 1ms 150ms backwards;
      }

      .old {
        background: repeating-linear-gradient(-45deg, transparent 0 9px, var(--row-line) 9px 10px);
        animation: hatch 1ms 150ms backwards;
      }

      @keyframes chip {
        from {
          opacity: 0;
        }
      }

      @keyframes hatch {
        from {
          background: none;
        }
      }

      .plain {
        white-space: pre-wrap;
        overflow-wrap: anywhere;
      }

      .first {
        margin-top: 8px;
        font-size: 0.8125rem;
        color: var(--ink-soft);
      }

      .minuted {
        margin-top: 8px;
        font-size: 0.8125rem;
        color: var(--ink-soft);
      }

      .minuted.moved {
        color: var(--ink);
        border-left: 2px solid var(--ink);
        padding-left: 8px;
      }

      @container (max-width: 32.5rem) {
        .cell {
          grid-template-columns: minmax(0, 1fr);
        }

        .margin {
          display: flex;
          gap: 0 10px;
          align-items: baseline;
          flex-wrap: wrap;
        }

        .state {
          margin: 0;
        }
      }

      /* Where colours are the reader's, a shadow is not drawn and nothing is transparent. */
      @media (forced-colors: active) {
        :host {
          border-left-color: GrayText;
        }

        :host([chosen]) {
          border-left: 6px solid Highlight;
          padding-left: 6px;
        }

        .state.fault {
          border-width: 2px;
          font-weight: 600;
        }
      }

      @media print {
        :host,
        :host([chosen]) {
          background: none;
          border-left-color: transparent;
        }
      }
    `,
  ];

  @property({ attribute: false }) view!: CellView;
  @property() picked = "";
  @property({ type: Boolean }) dark = false;
  /** The recalculation is stopped: what is not worked out yet stays as it is. */
  @property({ type: Boolean }) stopped = false;

  override render(): TemplateResult {
    const { view } = this;
    return html`<div class="cell">
      <div class="margin">
        <div class="name" data-handle title=${labels.dragName}>${view.name}</div>
        <div class="nature">${view.nature}</div>
        ${this.#state()}
      </div>
      <div class="body">${this.#body()} ${view.minuted.map(minuted)}</div>
      <div class="edge" data-edge title=${labels.dragEdge}></div>
    </div>`;
  }

  #state(): TemplateResult | typeof nothing {
    const { status } = this.view;
    if (status === "current") return nothing;
    const look = status === "at fault" ? "fault" : status;
    const held = status === "recalculating" && this.stopped;
    return html`<span class="state ${look}">${held ? labels.stopped : labels.status[status]}</span>`;
  }

  #body(): TemplateResult {
    const { view } = this;
    if (view.status === "at fault") {
      return html`<cell-fault
        .cell=${view.name}
        .working=${view.working}
        .problems=${view.problems}
      ></cell-fault>`;
    }
    if (view.status === "waiting") return html`<p>${labels.waitsFor(view.waitsFor)}</p>`;
    return html`<div class=${view.status === "recalculating" ? "old" : ""}>${this.#worth()}</div>`;
  }

  #worth(): TemplateResult {
    const { view } = this;
    if (view.setting !== undefined) {
      return html`<cell-setting
        .cell=${view.name}
        .setting=${view.setting}
        .presets=${view.presets}
      ></cell-setting>`;
    }
    if (view.answer !== undefined) {
      return html`<cell-answer
        .cell=${view.name}
        .answer=${view.answer}
        .picked=${this.picked}
        .dark=${this.dark}
      ></cell-answer>`;
    }
    return html`<p class="plain">${view.plain ?? ""}</p>
      ${view.preview === undefined ? nothing : preview(view.name, view.preview)}`;
  }
}

function preview(name: string, table: AnswerTable): TemplateResult {
  return html`<p class="first">${labels.firstRows(table.rows.length)}</p>
    <answer-table plain .caption=${labels.previewOf(name)} .table=${table}></answer-table>`;
}

function minuted(of: MinutedView): TemplateResult {
  const now = of.now === undefined ? labels.minutedHolds : labels.minutedMoved(of.now, of.because);
  return html`<p class="minuted ${of.holds ? "" : "moved"}">
    ${labels.minuted(of.date, of.text)} · ${of.holds ? labels.minutedHolds : now}
  </p>`;
}

declare global {
  interface HTMLElementTagNameMap {
    "sheet-cell": SheetCell;
  }
}
