import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { type Act, send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import type { CellView } from "../protocol.ts";

/** What a cell feeds on and feeds, and why it last recalculated. */
@customElement("cell-links")
export class CellLinks extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      p {
        color: var(--ink-soft);
        font-size: 0.84375rem;
      }
    `,
  ];

  @property({ attribute: false }) view!: CellView;

  override render(): TemplateResult {
    const { feedsOn, feeds, because } = this.view;
    return html`<p>
        ${this.#names(labels.feedsOn, feedsOn)} ${this.#names(labels.feeds, feeds)}
      </p>
      ${because === "" ? nothing : html`<p>${labels.because(because)}</p>`}`;
  }

  #names(lead: (none: boolean) => string, names: readonly string[]): TemplateResult {
    if (names.length === 0) return html`${lead(true)}`;
    const parts = names.map((name, i) => html`${separator(i, names.length)}${this.#name(name)}`);
    return html`${lead(false)} ${parts}.`;
  }

  #name(name: string): TemplateResult {
    return html`<button class="opens" @click=${() => send(this, actOn(name))}
      >${name}</button
    >`;
  }
}

/** What leads to a cell, or to what the sheet is fed from outside. */
function actOn(name: string): Act {
  if (name === "cases") return { act: "turn to", leaf: "cases" };
  if (name === "departments") return { act: "list departments" };
  return { act: "choose", cell: name, walk: true };
}

function separator(position: number, length: number): string {
  if (position === 0) return "";
  return position === length - 1 ? " and " : ", ";
}

declare global {
  interface HTMLElementTagNameMap {
    "cell-links": CellLinks;
  }
}
