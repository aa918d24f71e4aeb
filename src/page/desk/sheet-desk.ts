import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { formatWorking } from "../../formula/format.ts";
import { send } from "../act.ts";
import { type BookState, cellOrder, closedBook, rowsOf } from "../host/book-state.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import type { CellView } from "../protocol.ts";
import { cautionList, cautionStyles } from "../sheet/caution-list.ts";
import "./cell-links.ts";
import "./cell-tools.ts";
import { deskLayout } from "./desk-layout.ts";
import "./eyes-behind.ts";
import { minuteTool } from "./minute-tool.ts";
import type { Drafting } from "./question-form.ts";
import "./question-form.ts";
import "./working-editor.ts";
import type { WorkingEditor } from "./working-editor.ts";

/** The desk at the foot: the chosen cell's question, its working, and the eyes behind a number. */
@customElement("sheet-desk")
export class SheetDesk extends LitElement {
  static override styles = [
    base,
    buttons,
    cautionStyles,
    deskLayout,
    css`
      :host {
        flex: none;
        background: var(--desk);
        border-top: 1px solid var(--edge);
      }

      h2 {
        font: 400 0.8125rem / 1.3 var(--sans);
        color: var(--ink-soft);
      }

      .bar {
        display: flex;
        align-items: center;
        gap: 16px;
        padding: 3px 28px;
      }

      .bar.open {
        position: absolute;
        right: 0;
        padding: 6px 14px;
        z-index: 1;
      }

      @media (max-width: 43.75rem) {
        .bar.open {
          position: static;
        }
      }

      .fold {
        min-height: 24px;
        padding: 0 8px;
        font-size: 0.78125rem;
        margin-left: auto;
        background: var(--desk);
      }

      .said {
        color: var(--ink-soft);
        font-size: 0.8125rem;
        background: var(--desk);
      }

      .head {
        display: flex;
        align-items: center;
        justify-content: space-between;
        gap: 12px;
        margin-block: -5px;
        min-height: 28px;
      }

      .hint {
        color: var(--ink-soft);
      }
    `,
  ];

  @property({ attribute: false }) book: BookState = closedBook;
  @property({ attribute: false }) host: Host | undefined;
  /** What became of the last copy. */
  @property() said = "";
  @query("working-editor") private readonly editor!: WorkingEditor | null;
  /** What is being written into a cell; `sent` once it is applied, until the cell follows. */
  @state() private draft: Draft | undefined;

  override render(): TemplateResult {
    const { deskFolded, chosen } = this.book;
    return html`<section
      class="desk"
      aria-label=${labels.desk}
      @keydown=${(event: KeyboardEvent) => this.#key(event)}
    >
      <div class="bar ${deskFolded ? "" : "open"}">
        ${deskFolded ? html`<h2>${labels.deskOf(chosen)}</h2>` : nothing}
        <span class="said" role="status">${this.said}</span>
        <button
          class="fold"
          aria-expanded=${!deskFolded}
          @click=${() => send(this, { act: "fold desk", folded: !deskFolded })}
        >
          ${deskFolded ? labels.unfoldDesk : labels.foldDesk}
        </button>
      </div>
      ${deskFolded ? nothing : this.#open()}
    </section>`;
  }

  /** What was written in a cell that is left is applied: nothing typed is lost. */
  protected override willUpdate(changed: PropertyValues<this>): void {
    const before = changed.get("book") as BookState | undefined;
    const { draft } = this;
    if (before === undefined || draft === undefined) return;
    const [was, is] = [before, this.book].map(({ cells }) => cells.get(draft.cell)?.working);
    if (draft.sent && was !== is) this.draft = undefined;
    else if (!draft.sent && this.book.chosen !== draft.cell) this.#finish(draft);
  }

  protected override updated(changed: PropertyValues<this>): void {
    const before = changed.get("book") as BookState | undefined;
    if (this.book.picked === undefined || before?.picked?.key === this.book.picked.key) return;
    void this.#showEyes();
  }

  /** In a narrow window the eyes stand below the other parts of the desk: they come to the top. */
  async #showEyes(): Promise<void> {
    const eyes = this.renderRoot.querySelector("eyes-behind");
    await eyes?.updateComplete;
    const block = window.matchMedia("(max-width: 56.25rem)").matches ? "start" : "nearest";
    eyes?.scrollIntoView({ block });
  }

  /** Puts the keyboard into the working. */
  async enter(): Promise<void> {
    if (this.book.deskFolded) send(this, { act: "fold desk", folded: false });
    await this.updateComplete;
    await this.editor?.enter();
  }

  #open(): TemplateResult {
    const { chosen, cells, picked } = this.book;
    const view = chosen === undefined ? undefined : cells.get(chosen);
    if (view === undefined) return html`<p class="hint alone">${labels.chooseCell}</p>`;
    return html`<div class="parts">
      <div class="part">
        <h2>${labels.theQuestion}</h2>
        ${this.#form(view)}
      </div>
      <div class="part">
        <div class="head"><h2>${labels.theWorking}</h2> ${minuteTool(this, view)}</div>
        <working-editor
          .view=${view}
          .host=${this.host}
          .draft=${this.#draftOf(view)?.text}
          @draft=${(event: CustomEvent<Drafting>) => this.#drafted(view, event.detail)}
        ></working-editor>
        <cell-links .view=${view}></cell-links>
        <cell-tools
          .view=${view}
          .rows=${rowsOf(this.book.notebook)}
          .cells=${cells}
          .taken=${[...cellOrder(this.book.notebook), ...this.book.words.map(({ name }) => name)]}
        ></cell-tools>
        ${cautionList(view.answer?.cautions ?? [])}
      </div>
      <div class="part">
        <eyes-behind .picked=${picked} .offered=${offersPicks(view)}></eyes-behind>
      </div>
    </div>`;
  }

  #form(view: CellView): TemplateResult {
    const { words, cells, cases } = this.book;
    return html`<question-form
      .working=${this.#draftOf(view)?.text ?? view.working}
      @draft=${(event: CustomEvent<Drafting>) => this.#drafted(view, event.detail)}
      .words=${words}
      .cells=${cells}
      .cases=${cases}
    ></question-form>`;
  }

  #draftOf(view: CellView): Draft | undefined {
    return this.draft?.cell === view.name ? this.draft : undefined;
  }

  #drafted({ name, working }: CellView, { text, finished }: Drafting): void {
    const draft = { cell: name, text, sent: false };
    if (finished) {
      this.#finish(draft);
      return;
    }
    this.draft = text === working ? undefined : draft;
    send(this, { act: "draft", cell: name, ...(this.draft && { text }) });
  }

  #finish({ cell, text }: Draft): void {
    const working = formatWorking(text);
    const changes = working !== this.book.cells.get(cell)?.working;
    this.draft = changes ? { cell, text: working, sent: true } : undefined;
    if (changes) send(this, { act: "change", request: { ask: "set working", cell, working } });
    send(this, { act: "draft", cell });
  }

  #key(event: KeyboardEvent): void {
    if (event.key !== "Escape" || event.defaultPrevented) return;
    event.preventDefault();
    send(this, { act: "leave desk" });
  }
}

interface Draft {
  readonly cell: string;
  readonly text: string;
  readonly sent: boolean;
}

/** Whether a number of the answer opens to eyes: those of departments' counts have none here. */
function offersPicks({ answer }: CellView): boolean {
  if (answer === undefined) return false;
  const inTable = answer.table.rows.some((row) => row.some(({ pick }) => pick !== undefined));
  return inTable || answer.sentence.some((part) => typeof part !== "string" && "pick" in part);
}

declare global {
  interface HTMLElementTagNameMap {
    "sheet-desk": SheetDesk;
  }
}
