import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import { formatProblem } from "../../problem/format-problem.ts";
import type { Arrangement, CaseColumn } from "../cases-protocol.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import type { ArrangedCount } from "./case-pages.ts";
import { FocusKept } from "./focus-kept.ts";
import { freeTextColumns } from "./free-text.ts";
import { tellLeaf } from "./leaf-act.ts";

/** Finding a text, choosing rows by a condition, hiding columns. */
@customElement("rows-tools")
export class RowsTools extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    css`
      .tools {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 20px;
        align-items: center;
      }

      form {
        display: flex;
        gap: 6px;
        align-items: center;
        min-width: 0;
      }

      .condition {
        flex: 1 1 380px;
      }

      .condition input {
        flex: 1;
        font-family: var(--fixed);
        font-size: 0.8125rem;
      }

      .find input {
        width: 13em;
      }

      pre {
        margin: 6px 0 0;
        font: 0.8125rem / 1.4 var(--fixed);
        white-space: pre-wrap;
        border-left: 4px solid var(--ink);
        padding-left: 10px;
      }

      details {
        position: relative;
      }

      summary {
        cursor: pointer;
        min-height: 26px;
        padding: 3px 2px;
      }

      .columns {
        position: absolute;
        right: 0;
        z-index: 6;
        width: min(40rem, calc(100vw - 60px));
        max-height: 380px;
        overflow: auto;
        padding: 12px 16px;
        background: var(--leaf);
        border: 1px solid var(--edge-strong);
        columns: 3 180px;
      }

      .columns label {
        display: flex;
        gap: 6px;
        align-items: center;
        min-height: 24px;
        break-inside: avoid;
      }

      .columns input {
        flex: none;
        width: 24px;
        height: 24px;
        min-height: 0;
        margin: 0;
        accent-color: var(--ink);
      }

      @media (max-width: 43.75rem) {
        .find,
        details {
          flex-basis: 100%;
        }

        .columns {
          left: 0;
          right: auto;
        }
      }
    `,
  ];

  @property({ attribute: false }) columns: readonly CaseColumn[] = [];
  @property({ attribute: false }) hiddenColumns: ReadonlySet<string> = new Set();
  @property({ attribute: false }) columnOrder: readonly string[] = [];
  /** Names of columns without any value. */
  @property({ attribute: false }) empty: ReadonlySet<string> = new Set();
  @property({ attribute: false }) arrangement: Arrangement = {};
  @property({ attribute: false }) counted: ArrangedCount | undefined;
  @query("#text") private readonly text!: HTMLInputElement;
  @query("#where") private readonly where!: HTMLInputElement;

  constructor() {
    super();
    new FocusKept(this);
  }

  override render(): TemplateResult {
    const problems = this.counted?.problems ?? [];
    return html`<div class="tools" role="group" aria-label=${labels.casesTools}>
        <form class="find" @submit=${(event: Event) => this.#find(event)}>
          <label for="text">${labels.find}</label>
          <input id="text" type="search" autocomplete="off" />
          <button>${labels.findNext}</button>
        </form>
        <form class="condition" @submit=${(event: Event) => this.#choose(event)}>
          <label for="where">${labels.condition}</label>
          <input
            id="where"
            autocomplete="off"
            spellcheck="false"
            placeholder=${labels.conditionExample}
            aria-invalid=${problems.length > 0 ? "true" : "false"}
            aria-describedby="faults"
            .value=${this.arrangement.where ?? ""}
          />
          <button>${labels.showThese}</button>
        </form>
        ${this.#columnsList()}
      </div>
      <div id="faults" role="alert">
        ${problems.map((problem) => html`<pre>${formatProblem(problem)}</pre>`)}
      </div>`;
  }

  #columnsList(): TemplateResult {
    const shown = this.columns.length - this.hiddenColumns.size;
    const free = freeTextColumns(this.columns);
    return html`<details @keydown=${(event: KeyboardEvent) => this.#close(event)}>
      <summary>${labels.columnsShown(shown, this.columns.length)}</summary>
      <div class="columns">
        <p>
          <button class="words" @click=${() => this.#hide([...free])}>
            ${free.size === 0 ? labels.showAllColumns : labels.showAllButFreeText}
          </button>
          ${
            this.empty.size === 0
              ? nothing
              : html`<button class="words" @click=${() => this.#hide([...this.hiddenColumns, ...this.empty])}>
                  ${labels.hideEmpty}
                </button>`
          }
          ${
            this.columnOrder.length === 0
              ? nothing
              : html`<button class="words" @click=${() => tellLeaf(this, { does: "order", columns: [] })}>
                  ${labels.orderAsInFile}
                </button>`
          }
        </p>
        ${this.columns.map(
          ({ name, label }) =>
            html`<label>
              <input
                type="checkbox"
                .checked=${!this.hiddenColumns.has(name)}
                @change=${() => this.#toggle(name)}
              />${label}${free.has(name) ? html` <small>(${labels.freeText})</small>` : nothing}
            </label>`,
        )}
      </div>
    </details>`;
  }

  #close(event: KeyboardEvent): void {
    if (event.key !== "Escape") return;
    const details = event.currentTarget as HTMLDetailsElement;
    details.open = false;
    details.querySelector("summary")?.focus();
  }

  #toggle(name: string): void {
    const hidden = new Set(this.hiddenColumns);
    if (!hidden.delete(name)) hidden.add(name);
    this.#hide([...hidden]);
  }

  #hide(names: readonly string[]): void {
    tellLeaf(this, { does: "hide", columns: new Set(names) });
  }

  #find(event: Event): void {
    event.preventDefault();
    tellLeaf(this, { does: "find", text: this.text.value });
  }

  #choose(event: Event): void {
    event.preventDefault();
    const { where: _, ...rest } = this.arrangement;
    const where = this.where.value.trim();
    tellLeaf(this, { does: "arrange", arrangement: { ...rest, ...(where !== "" && { where }) } });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "rows-tools": RowsTools;
  }
}
