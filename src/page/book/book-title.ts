import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import type { Mask } from "../meeting/hide-people.ts";
import type { NotebookView } from "../protocol.ts";
import "./title-page-form.ts";

/** The notebook's title and period; what stands on the title page can be changed there. */
@customElement("book-title")
export class BookTitle extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      h1 {
        display: inline;
      }

      h1 {
        font: 600 1.25rem / 1.2 var(--serif);
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
        h1 {
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

  override render(): TemplateResult {
    const { notebook } = this;
    if (notebook === undefined) return html`<h1>${labels.product}</h1>`;
    return html`<div>
      ${this.changing ? this.#form(notebook) : this.#heading(notebook)}
      ${this.changing || notebook.period === undefined ? nothing : html`<small>${notebook.periodAsSet ?? notebook.period}</small>`}
    </div>`;
  }

  #heading(notebook: NotebookView): TemplateResult {
    return html`<h1>${this.mask(notebook.title)}</h1>
      ${this.changes ? this.#button() : nothing}`;
  }

  #button(): TemplateResult {
    return html`<button class="words" title=${labels.titleName} @click=${() => {
      this.changing = true;
    }}>
      ${labels.changeTitle}
    </button>`;
  }

  #form(notebook: NotebookView): TemplateResult {
    return html`<title-page-form
      .notebook=${notebook}
      @settled=${() => {
        this.changing = false;
      }}
    ></title-page-form>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "book-title": BookTitle;
  }
}
