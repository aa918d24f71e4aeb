import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { roomButton } from "../book/room-button.ts";
import { type BookState, cellOrder, closedBook } from "../host/book-state.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import type { CellView } from "../protocol.ts";
import "./meeting-page.ts";

const forward = ["ArrowRight", "PageDown", " "];
const backward = ["ArrowLeft", "PageUp"];

/** The meeting: one finding a page, in large type. Arrow and page keys turn the pages. */
@customElement("meeting-leaf")
export class MeetingLeaf extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      :host {
        height: 100%;
      }

      .meeting {
        min-height: 100%;
        display: flex;
        flex-direction: column;
        outline-offset: -3px;
      }

      .pages {
        flex: 1;
        position: relative;
      }

      meeting-page:not([shown]) {
        position: absolute;
        inset: 0;
        visibility: hidden;
        overflow: clip;
      }

      footer {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 6px 20px;
        padding: 10px 28px;
        border-top: 1px solid var(--hairline);
        color: var(--ink-soft);
        position: sticky;
        bottom: 0;
        background: var(--paper);
      }

      .caution {
        flex: 1 1 320px;
      }

      .turn {
        display: flex;
        align-items: center;
        gap: 10px;
      }

      .turn button {
        min-height: 32px;
        padding-inline: 16px;
      }

      .none {
        padding: 28px;
      }

      @media (max-width: 700px) {
        .large-only {
          display: none;
        }
      }

      @media print {
        footer {
          display: none;
        }

        meeting-page,
        meeting-page:not([shown]) {
          position: static;
          visibility: visible;
        }

        meeting-page + meeting-page {
          break-before: page;
        }

        .meeting {
          display: block;
        }
      }
    `,
  ];

  @property({ attribute: false }) book: BookState = closedBook;
  @query(".meeting") private readonly meeting!: HTMLElement | null;
  @state() private page = 0;

  override render(): TemplateResult {
    const pages = this.#pages();
    if (pages.length === 0) return html`<p class="none">${labels.nothingToMeet}</p>`;
    const at = Math.min(this.page, pages.length - 1);
    return html`<section
      class="meeting"
      tabindex="0"
      aria-label=${labels.meetingName}
      @keydown=${(event: KeyboardEvent) => this.#key(event)}
    >
      <div class="pages">
        ${pages.map((view, i) => this.#page(view, i === at))}
      </div>
      ${this.#foot(at, pages.length)}
    </section>`;
  }

  /** All pages are there, so that all can be printed; the one that is turned to can be seen. */
  #page(view: CellView, shown: boolean): TemplateResult {
    return html`<meeting-page
      ?shown=${shown}
      .view=${view}
      .dark=${this.book.dark}
    ></meeting-page>`;
  }

  protected override firstUpdated(): void {
    this.meeting?.focus();
  }

  #foot(at: number, count: number): TemplateResult {
    return html`<footer>
      <p class="caution">${labels.caution}</p>
      <div class="turn">
        <span class="large-only">
          <button class="words" @click=${() => window.print()}>${labels.print}</button>
          ${roomButton(this, this.book.dark)}
        </span>
        <button ?disabled=${at === 0} @click=${() => this.#turn(-1)}>${labels.back}</button>
        <span aria-live="polite">${labels.pageOf(at + 1, count)}</span>
        <button ?disabled=${at === count - 1} @click=${() => this.#turn(1)}>
          ${labels.next}
        </button>
      </div>
    </footer>`;
  }

  #pages(): readonly CellView[] {
    const views = cellOrder(this.book.notebook).map((name) => this.book.cells.get(name));
    return views.filter((view): view is CellView => view?.answer !== undefined);
  }

  #key(event: KeyboardEvent): void {
    const onButton = event.composedPath()[0] instanceof HTMLButtonElement;
    if (event.key === " " && onButton) return;
    if (forward.includes(event.key)) this.#turn(1);
    else if (backward.includes(event.key)) this.#turn(-1);
    else if (event.key === "Home") this.page = 0;
    else if (event.key === "End") this.page = this.#pages().length - 1;
    else return;
    event.preventDefault();
  }

  #turn(by: number): void {
    this.page = Math.min(Math.max(this.page + by, 0), this.#pages().length - 1);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "meeting-leaf": MeetingLeaf;
  }
}
