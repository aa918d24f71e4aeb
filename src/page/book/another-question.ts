import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { send } from "../act.ts";
import { type BookState, cellOrder, closedBook } from "../host/book-state.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import type { WordView } from "../protocol.ts";
import { dialogLook } from "./dialog-look.ts";
import { freshName, startingWorking } from "./fresh-cell.ts";
import { wordsToAsk } from "./words-to-ask.ts";

/** A new cell, started from the question in the reader's words. */
@customElement("another-question")
export class AnotherQuestion extends LitElement {
  static override styles = [base, buttons, fields, dialogLook];

  @property({ attribute: false }) book: BookState = closedBook;
  @query("dialog") private readonly dialog!: HTMLDialogElement;
  @state() private open = false;
  @state() private row: "same" | "new" = "new";

  /** Asks for a cell beside the chosen one, or in a row below it. */
  show(row: "same" | "new" = "new"): void {
    this.open = true;
    this.row = row;
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
    const words = wordsToAsk(this.book);
    return html`<form method="dialog">
      <h2 id="title">${labels.askAnotherName}</h2>
      ${this.#where()}
      <div class="choices">${words.map((word) => this.#word(word))}</div>
      <div class="foot">
        <button type="button" @click=${() => this.#add("", "value")}>${labels.blankCell}</button>
        <button>${labels.cancel}</button>
      </div>
    </form>`;
  }

  #where(): TemplateResult | typeof nothing {
    const { chosen } = this.book;
    if (chosen === undefined) return nothing;
    const where = this.row === "same" ? labels.newBeside(chosen) : labels.newBelow(chosen);
    return html`<p class="quiet">${where}</p>`;
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
    const cell = { after, name, working: working === "" ? "0" : working, row: this.row };
    send(this, { act: "change", request: { ask: "add cell", ...cell } });
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
