import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import { send } from "../act.ts";
import { type BookState, closedBook } from "../host/book-state.ts";
import { isPooled } from "../host/open-departments.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import { roomButton } from "./room-button.ts";

/** Opening, saving, undoing: what belongs to the book and not to one cell. */
@customElement("book-tools")
export class BookTools extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      .tools {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 6px 8px;
        padding: 5px 28px;
        border-bottom: 1px solid var(--hairline);
      }

      .invented {
        margin-right: 4px;
        color: var(--caution);
      }

      .invented strong {
        font-weight: 600;
      }

      .kept {
        color: var(--ink-soft);
        font-size: 0.8125rem;
      }

      .undo {
        white-space: nowrap;
      }

      .gap {
        flex: 1;
      }

      @media (max-width: 43.75rem) {
        .tools {
          padding-inline: 16px;
        }

        .invented {
          flex-basis: 100%;
        }

        .large-only,
        .gap {
          display: none;
        }
      }
    `,
  ];

  @property({ attribute: false }) book: BookState = closedBook;
  @query("#cases") private casesFile!: HTMLInputElement;

  override render(): TemplateResult {
    return html`<section class="tools" aria-label=${labels.tools}>
      ${this.#invented()}
      ${this.#openers()}
      <button class="words" @click=${() => send(this, { act: "list notebooks" })}>${labels.notebooks}</button>
      <button class="words" @click=${() => send(this, { act: "save notebook" })}>${labels.saveNotebook}</button>
      <button class="words" @click=${() => send(this, { act: "save report" })}>${labels.saveReport}</button>
      ${this.#kept()}
      <span class="large-only">
        <button class="words" @click=${() => send(this, { act: "print" })}>${labels.print}</button>
        ${roomButton(this, this.book.dark)}
      </span>
      <span class="gap"></span>
      <span class="undo">${this.#undoButton("undo")} ${this.#undoButton("redo")}</span>
      <button @click=${() => send(this, { act: "ask another" })}>${labels.askAnother}</button>
      ${this.#filePicker("cases", ".csv,.tsv,.txt,.xlsx,text/csv")}
    </section>`;
  }

  /** What this notebook asks of comes first. */
  #openers(): TemplateResult {
    const pooled = isPooled(this.book.notebook);
    const cases = html`<button
      class=${pooled ? "words" : "first"}
      @click=${() => this.casesFile.click()}
    >
      ${labels.openCases}
    </button>`;
    const departments = html`<button
      class=${pooled ? "first" : "words"}
      @click=${() => send(this, { act: "list departments" })}
    >
      ${labels.departments}
    </button>`;
    return pooled ? html`${departments} ${cases}` : html`${cases} ${departments}`;
  }

  #invented(): TemplateResult | typeof nothing {
    const { cases, departments, notebook } = this.book;
    const pooled = isPooled(notebook);
    const own = pooled ? departments : cases;
    if (own === undefined) return nothing;
    const text = pooled ? labels.inventedDepartments : labels.invented;
    if (own.invented) return html`<span class="invented">${text}</span>`;
    return notebook?.unit?.includes("(invented)") === true
      ? html`<span class="invented">${labels.inventedNotebook}</span>`
      : nothing;
  }

  /** Whether a crash would lose anything. */
  #kept(): TemplateResult | typeof nothing {
    const { kept } = this.book;
    if (kept === undefined) return nothing;
    const meaning = kept ? labels.keptMeaning : labels.notKeptMeaning;
    return html`<span class="kept" role="status" title=${meaning}>
      ${kept ? labels.kept : labels.notKept}
    </span>`;
  }

  #undoButton(ask: "undo" | "redo"): TemplateResult {
    const named = this.book.notebook?.[ask];
    const none = ask === "undo" ? labels.nothingToUndo : labels.nothingToRedo;
    const keys = ask === "undo" ? "Ctrl+Z" : "Ctrl+Shift+Z";
    return html`<button
      aria-disabled=${named === undefined}
      title=${named === undefined ? none : `${labels[ask]}: ${named} (${keys})`}
      @click=${() => named !== undefined && send(this, { act: "change", request: { ask } })}
    >
      ${labels[ask]}
    </button>`;
  }

  #filePicker(id: string, accept: string): TemplateResult {
    return html`<input
      type="file"
      id=${id}
      hidden
      accept=${accept}
      @change=${(event: Event) => this.#chosen(event.target as HTMLInputElement)}
    />`;
  }

  #chosen(input: HTMLInputElement): void {
    const file = input.files?.[0];
    if (file !== undefined) send(this, { act: "open file", file });
    input.value = "";
  }
}
