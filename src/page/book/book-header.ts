import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { type Leaf, send } from "../act.ts";
import { type BookState, closedBook } from "../host/book-state.ts";
import { isPooled } from "../host/open-departments.ts";
import { casesInBrief, departmentsInBrief, labels } from "../labels.ts";
import { base } from "../look/base.ts";
import { maskOfTitle } from "../meeting/hide-people.ts";
import "./book-title.ts";

/** The head of every leaf: what the book is, its leaves, and which cases it reads. */
@customElement("book-header")
export class BookHeader extends LitElement {
  static override styles = [
    base,
    css`
      header {
        display: flex;
        align-items: stretch;
        gap: 0 28px;
        padding: 0 28px;
        min-height: 54px;
        border-bottom: 1px solid var(--hairline);
      }

      book-title {
        align-self: center;
        padding-block: 7px;
      }

      nav {
        display: flex;
        gap: 22px;
      }

      nav button {
        font: inherit;
        color: var(--ink-soft);
        background: none;
        border: 0;
        border-block: 3px solid transparent;
        padding: 0 2px;
        cursor: pointer;
      }

      nav button:hover {
        color: var(--ink);
      }

      nav button[aria-current] {
        color: var(--ink);
        font-weight: 600;
        border-bottom-color: var(--ink);
      }

      @media (forced-colors: active) {
        nav button {
          border-color: Canvas;
        }

        nav button[aria-current] {
          border-bottom-color: Highlight;
        }
      }

      .facts {
        margin-left: auto;
        align-self: center;
        color: var(--ink-soft);
        text-align: right;
        padding-block: 6px;
      }

      .facts strong {
        color: var(--ink);
        font-weight: 600;
      }

      @media print {
        nav {
          display: none !important;
        }

        header {
          padding-inline: 0;
        }
      }

      @media (max-width: 68.75rem) {
        header {
          flex-wrap: wrap;
        }

        book-title {
          flex-basis: 100%;
          padding-block: 10px 2px;
        }

        nav {
          min-height: 38px;
        }
      }

      @media (max-width: 43.75rem) {
        header {
          padding-inline: 16px;
        }

        .facts {
          flex-basis: 100%;
          order: 2;
          text-align: left;
          padding-block: 0 6px;
          margin: 0;
          font-size: 0.8125rem;
        }

        nav {
          order: 3;
        }
      }
    `,
  ];

  @property({ attribute: false }) book: BookState = closedBook;

  override render(): TemplateResult {
    const { notebook } = this.book;
    return html`<header>
      <book-title .notebook=${notebook} .mask=${maskOfTitle(this.book)} .changes=${this.book.leaf !== "meeting"}></book-title>
      <nav aria-label=${labels.leavesName}>
        ${(["cases", "sheet", "meeting"] as const).map((leaf) => this.#leafButton(leaf))}
      </nav>
      <p class="facts">${this.#facts()}</p>
    </header>`;
  }

  #leafButton(leaf: Leaf): TemplateResult {
    return html`<button
      aria-current=${this.book.leaf === leaf ? "page" : nothing}
      @click=${() => send(this, { act: "turn to", leaf })}
    >
      ${labels.leaves[leaf]}
    </button>`;
  }

  #facts(): TemplateResult {
    const { cases, departments, notebook } = this.book;
    if (isPooled(notebook)) {
      const facts =
        departments === undefined ? labels.noDepartments : departmentsInBrief(departments);
      return html`${facts} · ${labels.staysHere}`;
    }
    if (cases === undefined) return html`${labels.noCases} · ${labels.staysHere}`;
    return html`<strong>${maskOfTitle(this.book)(cases.file)}</strong> · ${casesInBrief(cases)} · ${labels.staysHere}`;
  }
}
