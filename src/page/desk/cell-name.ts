import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import type { CellView } from "../protocol.ts";

/** The cell's name, to be changed everywhere at once, and the cell's end. */
@customElement("cell-name")
export class CellName extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    css`
      .name {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 6px 8px;
      }

      input {
        width: 18ch;
      }
    `,
  ];

  @property({ attribute: false }) view!: CellView;

  override render(): TemplateResult {
    const { name } = this.view;
    return html`<div class="name">
      <label for="name">${labels.rename}</label>
      <input
        id="name"
        autocomplete="off"
        spellcheck="false"
        .value=${name}
        @change=${(event: Event) => this.#rename(event.target as HTMLInputElement)}
      />
      <button @click=${() => this.#ask({ ask: "remove cell", cell: name })}>
        ${labels.removeCell}
      </button>
    </div>`;
  }

  #rename(input: HTMLInputElement): void {
    const to = input.value.trim();
    if (to !== "" && to !== this.view.name) {
      this.#ask({ ask: "rename cell", cell: this.view.name, to });
    }
    // Until the notebook says so, the name is the old one.
    input.value = this.view.name;
  }

  #ask(
    request:
      | { ask: "remove cell"; cell: string }
      | { ask: "rename cell"; cell: string; to: string },
  ) {
    send(this, { act: "change", request });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "cell-name": CellName;
  }
}
