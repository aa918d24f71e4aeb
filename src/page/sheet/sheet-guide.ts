import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { readRuns } from "../../notebook/prose-runs.ts";
import { type BookState, closedBook } from "../host/book-state.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import type { BlockView } from "../protocol.ts";
import { type Found, findInSheet } from "./find-in-sheet.ts";
import { guideLook } from "./guide-look.ts";

/** Where the reader wants to go: a block of the notebook, or a cell in it. */
export interface WayTo {
  readonly block: number;
  readonly cell?: string;
}

/** Results drawn at once. */
const mostShown = 40;

/** Over the sheet: its headings to jump to, and finding in names, workings and answers. */
@customElement("sheet-guide")
export class SheetGuide extends LitElement {
  static override styles = [base, buttons, fields, guideLook];

  @property({ attribute: false }) book: BookState = closedBook;
  @query("input") private readonly field!: HTMLInputElement;
  @state() private wanted = "";
  @state() private at = -1;
  @state() private open: "contents" | "found" | undefined;

  /** Puts the keyboard into the field. */
  enter(): void {
    this.field.select();
    this.field.focus();
  }

  override render(): TemplateResult {
    const found = this.#found();
    return html`<section
      aria-label=${labels.guide}
      @keydown=${(event: KeyboardEvent) => this.#key(event)}
      @focusout=${(event: FocusEvent) => this.#left(event)}
    >
      <div class="bar">
        <button
          class="words"
          aria-expanded=${this.open === "contents"}
          aria-controls="panel"
          @click=${() => this.#toggleContents()}
        >
          ${labels.contents}
        </button>
        <label for="find">${labels.find}</label>
        <input
          id="find"
          type="text"
          role="searchbox"
          enterkeyhint="search"
          autocomplete="off"
          spellcheck="false"
          aria-label=${labels.findName}
          title=${labels.findFirst}
          .value=${this.wanted}
          @input=${(event: Event) => this.#want((event.target as HTMLInputElement).value)}
        />
        ${this.wanted.trim() === "" ? nothing : this.#walk(found)}
      </div>
      <div id="panel" class="panel" ?hidden=${this.open === undefined}>
        ${this.open === "contents" ? this.#contents() : this.#results(found)}
      </div>
    </section>`;
  }

  #walk(found: readonly Found[]): TemplateResult {
    const none = found.length === 0;
    const walked =
      this.at < 0 ? labels.foundCount(found.length) : labels.foundAt(this.at + 1, found.length);
    const said = none ? labels.foundNone : walked;
    return html`<span role="status">${said}</span>
      <button aria-disabled=${none} @click=${() => this.#step(-1)}>${labels.previousFound}</button>
      <button aria-disabled=${none} @click=${() => this.#step(1)}>${labels.nextFound}</button>`;
  }

  #contents(): TemplateResult {
    const blocks = this.book.notebook?.blocks ?? [];
    const headings = blocks.flatMap((block, i) =>
      block.type === "heading" ? [{ block: i, level: block.level, text: plain(block.text) }] : [],
    );
    if (headings.length === 0) return html`<p>${labels.noHeadings}</p>`;
    return html`<ul>
      ${headings.map(
        ({ block, level, text }) => html`<li class="level-${Math.min(level, 4)}">
          <button @click=${() => this.#go({ block })}>${text}</button>
          <span class="cells">${cellsUnder(blocks, block).join(", ")}</span>
        </li>`,
      )}
    </ul>`;
  }

  #results(found: readonly Found[]): TemplateResult {
    return html`<ul>
      ${found.slice(0, mostShown).map(
        (each, i) => html`<li>
          <button
            aria-current=${i === this.at ? "true" : nothing}
            @click=${() => this.#goToFound(i)}
          >
            <strong>${each.cell ?? labels.foundIn.text}</strong>
            ${each.cell === undefined ? nothing : html`<span>${labels.foundIn[each.where]}</span>`}
            <span class="excerpt"
              >${each.excerpt.before}<mark>${each.excerpt.hit}</mark>${each.excerpt.after}</span
            >
          </button>
        </li>`,
      )}
    </ul>`;
  }

  #found(): readonly Found[] {
    return findInSheet(this.wanted, this.book.notebook?.blocks ?? [], this.book.cells);
  }

  #want(text: string): void {
    this.wanted = text;
    this.at = -1;
    this.open = text.trim() === "" ? undefined : "found";
  }

  #step(by: number): void {
    const { length } = this.#found();
    if (length === 0) return;
    const from = this.at < 0 && by < 0 ? 0 : this.at;
    this.#goToFound((from + by + length) % length);
  }

  #goToFound(position: number): void {
    const found = this.#found()[position];
    if (found === undefined) return;
    this.at = position;
    const { block, cell } = found;
    this.dispatchEvent(new CustomEvent("look", { detail: { block, ...(cell && { cell }) } }));
  }

  #go(way: WayTo): void {
    this.open = undefined;
    this.dispatchEvent(new CustomEvent<WayTo>("go", { detail: way }));
  }

  #toggleContents(): void {
    this.open = this.open === "contents" ? undefined : "contents";
  }

  #key(event: KeyboardEvent): void {
    const inField = event.composedPath()[0] === this.field;
    if (event.key === "Enter" && inField) this.#step(event.shiftKey ? -1 : 1);
    else if (event.key === "Escape") this.#escape();
    else return;
    event.preventDefault();
  }

  /** Back to the sheet, at what was found last. */
  #escape(): void {
    const found = this.#found()[this.at];
    this.#want("");
    this.dispatchEvent(
      new CustomEvent<WayTo | null>("go", {
        detail: found ? { block: found.block, ...(found.cell && { cell: found.cell }) } : null,
      }),
    );
  }

  #left(event: FocusEvent): void {
    const to = event.relatedTarget;
    if (to instanceof Node && this.renderRoot.contains(to)) return;
    this.open = undefined;
  }
}

function plain(text: string): string {
  return readRuns(text)
    .map((run) => run.text)
    .join("");
}

/** Names of the cells between a heading and the next. */
function cellsUnder(blocks: readonly BlockView[], heading: number): readonly string[] {
  const rest = blocks.slice(heading + 1);
  const end = rest.findIndex(({ type }) => type === "heading");
  return rest
    .slice(0, end < 0 ? rest.length : end)
    .flatMap((block) => (block.type === "row" ? block.cells : []));
}

declare global {
  interface HTMLElementTagNameMap {
    "sheet-guide": SheetGuide;
  }
}
