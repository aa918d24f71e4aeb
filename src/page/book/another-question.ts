import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { send } from "../act.ts";
import { type BookState, cellOrder, closedBook } from "../host/book-state.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import type { WordView } from "../protocol.ts";
import { freshName, startingWorking } from "./fresh-cell.ts";

/** A new cell, started from the question in the reader's words. */
@customElement("another-question")
export class AnotherQuestion extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    css`
      dialog {
        width: min(760px, calc(100vw - 32px));
        max-height: min(640px, calc(100dvh - 48px));
        padding: 0;
        background: var(--leaf);
        color: var(--ink);
        border: 1px solid var(--edge-strong);
        border-radius: 3px;
      }

      dialog::backdrop {
        background: rgb(29 39 51 / 35%);
      }

      form {
        display: grid;
        gap: 12px;
        padding: 20px 24px;
      }

      h2 {
        font: 600 20px / 1.2 var(--serif);
      }

      .words {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(min(100%, 320px), 1fr));
        gap: 0 24px;
      }

      .words button {
        text-align: left;
        border: 0;
        border-bottom: 1px solid var(--row-line);
        border-radius: 0;
        padding: 8px 6px;
        text-decoration: none;
      }

      .words button:hover {
        background: var(--desk);
      }

      .words strong {
        display: block;
        font: 400 17px / 1.3 var(--serif);
      }

      .words span {
        color: var(--ink-soft);
        font-size: 13px;
      }

      .foot {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
        align-items: center;
      }
    `,
  ];

  @property({ attribute: false }) book: BookState = closedBook;
  @query("dialog") private readonly dialog!: HTMLDialogElement;
  @state() private open = false;

  show(): void {
    this.open = true;
    this.dialog.showModal();
  }

  override render(): TemplateResult {
    return html`<dialog
      aria-labelledby="title"
      @close=${() => {
        this.open = false;
      }}
    >
      ${this.open ? this.#form() : nothing}
    </dialog>`;
  }

  #form(): TemplateResult {
    const words = this.book.words.filter(({ asks }) => asks !== undefined);
    return html`<form method="dialog">
      <h2 id="title">${labels.askAnotherName}</h2>
      <div class="words">${words.map((word) => this.#word(word))}</div>
      <div class="foot">
        <button type="button" @click=${() => this.#add("", "value")}>${labels.blankCell}</button>
        <button>${labels.cancel}</button>
      </div>
    </form>`;
  }

  #word(word: WordView): TemplateResult {
    return html`<button
      type="button"
      @click=${() => this.#add(startingWorking(word, this.book), nameStem(word))}
    >
      <strong>${word.asks}</strong><span>${word.meaning}</span>
    </button>`;
  }

  #add(working: string, stem: string): void {
    const order = cellOrder(this.book.notebook);
    const name = freshName(stem, [...order, ...this.book.words.map((word) => word.name)]);
    const after = this.book.chosen ?? order.at(-1) ?? null;
    this.dialog.close();
    send(this, {
      act: "change",
      request: { ask: "add cell", after, name, working: working === "" ? "0" : working },
    });
  }
}

const smallWords = new Set(["a", "an", "and", "did", "do", "does", "in", "is", "it", "of", "the"]);

/** "How often did it fail?" makes `how_often`, as the cells of the notebooks are named. */
function nameStem(word: WordView): string {
  const words = (word.asks ?? word.name).toLowerCase().match(/[a-z]+/g) ?? [];
  const telling = words.filter((each) => !smallWords.has(each));
  return telling.length === 0 ? word.name : telling.slice(0, 2).join("_");
}

declare global {
  interface HTMLElementTagNameMap {
    "another-question": AnotherQuestion;
  }
}
