import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import type { Mask } from "../meeting/hide-people.ts";
import type { NotebookView } from "../protocol.ts";

/** The notebook's title and period; the title can be changed where it stands. */
@customElement("book-title")
export class BookTitle extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    css`
      h1 {
        display: inline;
      }

      h1,
      input {
        font: 600 1.25rem / 1.2 var(--serif);
      }

      input {
        width: min(46ch, 80vw);
      }

      small {
        display: block;
        font: 400 0.8125rem / 1.2 var(--serif);
        color: var(--ink-soft);
      }

      button.words {
        font-size: 0.78125rem;
        min-height: 24px;
        padding-block: 0;
        color: var(--ink-soft);
      }

      @media (max-width: 43.75rem) {
        h1,
        input {
          font-size: 1.125rem;
        }
      }

      @media print {
        button {
          display: none;
        }
      }
    `,
  ];

  @property({ attribute: false }) notebook: NotebookView | undefined;
  /** How the title is written for whoever looks on. */
  @property({ attribute: false }) mask: Mask = (text) => text;
  /** Where others look on it cannot be changed: it would be written with its codes. */
  @property({ attribute: false }) changes = true;
  @state() private changing = false;
  @query("input") private readonly input!: HTMLInputElement | null;

  override render(): TemplateResult {
    const { notebook } = this;
    if (notebook === undefined) return html`<h1>${labels.product}</h1>`;
    return html`<div>
      ${this.changing ? this.#field(notebook) : this.#heading(notebook)}
      ${notebook.period === undefined ? nothing : html`<small>${notebook.period}</small>`}
    </div>`;
  }

  #heading(notebook: NotebookView): TemplateResult {
    return html`<h1>${this.mask(notebook.title)}</h1>
      ${this.changes ? this.#button() : nothing}`;
  }

  #button(): TemplateResult {
    return html`<button class="words" title=${labels.titleName} @click=${() => this.#change()}>
      ${labels.changeTitle}
    </button>`;
  }

  #field(notebook: NotebookView): TemplateResult {
    return html`<input
      aria-label=${labels.titleName}
      .value=${notebook.title}
      @keydown=${(event: KeyboardEvent) => this.#key(event)}
      @blur=${() => this.#set()}
    />`;
  }

  async #change(): Promise<void> {
    this.changing = true;
    await this.updateComplete;
    this.input?.select();
  }

  #key(event: KeyboardEvent): void {
    if (event.key === "Enter") this.#set();
    if (event.key === "Escape") this.changing = false;
  }

  #set(): void {
    if (!this.changing) return;
    this.changing = false;
    const title = this.input?.value.trim() ?? "";
    if (title === "" || title === this.notebook?.title) return;
    send(this, { act: "change", request: { ask: "set title", title } });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "book-title": BookTitle;
  }
}
