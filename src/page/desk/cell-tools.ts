import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { send } from "../act.ts";
import { freshName } from "../book/fresh-cell.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import type { CellView, Request } from "../protocol.ts";
import { type MoveKey, placeBy, type Rows } from "../sheet/move-steps.ts";
import { widthStyles, widthTools } from "./width-tools.ts";

const arrows = {
  ArrowLeft: "M11 3 5 8l6 5",
  ArrowRight: "M5 3l6 5-6 5",
  ArrowUp: "M3 11l5-6 5 6",
  ArrowDown: "M3 5l5 6 5-6",
} as const satisfies Record<MoveKey, string>;

/** The cell's name, to be changed everywhere at once; copying, moving, adding beside, removing. */
@customElement("cell-tools")
export class CellTools extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    widthStyles,
    css`
      section {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 6px 8px;
      }

      input {
        width: 18ch;
      }

      .moves {
        display: flex;
        gap: 2px;
        align-items: center;
      }

      .moves span {
        color: var(--ink-soft);
        margin-right: 4px;
      }

      .moves button {
        padding: 0 5px;
      }

      svg {
        display: block;
        fill: none;
        stroke: currentColor;
        stroke-width: 1.75;
      }
    `,
  ];

  @property({ attribute: false }) view!: CellView;
  @property({ attribute: false }) rows: Rows = [];
  @property({ attribute: false }) cells: ReadonlyMap<string, CellView> = new Map();
  /** Names that a copy cannot have. */
  @property({ attribute: false }) taken: readonly string[] = [];

  override render(): TemplateResult {
    const { name } = this.view;
    return html`<section aria-label=${labels.cellTools}>
      <label for="name">${labels.rename}</label>
      <input
        id="name"
        autocomplete="off"
        spellcheck="false"
        .value=${name}
        @change=${(event: Event) => this.#rename(event.target as HTMLInputElement)}
      />
      ${this.#moves()} ${widthTools(this, this.#row(), name)}
      <button
        title=${labels.copyAnswerTitle(name)}
        @click=${() => send(this, { act: "copy answer", cell: name })}
      >
        ${labels.copyAnswer}
      </button>
      <button title=${labels.copyCellTitle(name)} @click=${() => this.#copy()}>
        ${labels.copyCell}
      </button>
      <button
        title=${labels.addBesideTitle(name)}
        @click=${() => send(this, { act: "ask another", row: "same" })}
      >
        ${labels.addBeside}
      </button>
      <button
        title=${labels.addBelowTitle(name)}
        @click=${() => send(this, { act: "ask another", row: "new" })}
      >
        ${labels.addBelow}
      </button>
      <button
        title=${labels.removeCellTitle(name)}
        @click=${() => this.#ask({ ask: "remove cell", cell: name })}
      >
        ${labels.removeCell}
      </button>
    </section>`;
  }

  /** The cells of its row. */
  #row(): readonly CellView[] {
    const row = this.rows.find((names) => names.includes(this.view.name)) ?? [];
    return row.flatMap((name) => this.cells.get(name) ?? []);
  }

  #moves(): TemplateResult {
    const keys = Object.keys(arrows) as MoveKey[];
    return html`<div class="moves" role="group" aria-label=${labels.move}>
      <span>${labels.move}</span>${keys.map((key) => this.#moveButton(key))}
    </div>`;
  }

  #moveButton(key: MoveKey): TemplateResult {
    const cell = this.view.name;
    const to = placeBy(key, cell, this.rows);
    const title = labels.moveTitle(cell, labels.moveTo[key]);
    return html`<button
      aria-label=${title}
      title=${title}
      aria-disabled=${to === undefined}
      @click=${() => to && this.#ask({ ask: "move cell", cell, to })}
    >
      <svg viewBox="0 0 16 16" width="14" height="14" aria-hidden="true">
        <path d=${arrows[key]} />
      </svg>
    </button>`;
  }

  #copy(): void {
    const { name } = this.view;
    const stem = name.replace(/_\d+$/, "");
    this.#ask({ ask: "copy cell", cell: name, name: freshName(stem, this.taken) });
  }

  #rename(input: HTMLInputElement): void {
    const to = input.value.trim();
    if (to !== "" && to !== this.view.name) {
      this.#ask({ ask: "rename cell", cell: this.view.name, to });
    }
    // Until the notebook says so, the name is the old one.
    input.value = this.view.name;
  }

  #ask(request: Request): void {
    send(this, { act: "change", request });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "cell-tools": CellTools;
  }
}
