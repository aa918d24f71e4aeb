import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { MatchedColumn } from "../../cases/case-reading.ts";
import { send } from "../act.ts";
import type { MatchingChange } from "../cases-protocol.ts";
import { countText } from "../labels/locale.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import { FocusKept } from "./focus-kept.ts";
import { chosenMatch, matchChoices } from "./match-choices.ts";
import { sectionLook } from "./section-look.ts";

type Surety = "guessed" | "certain" | "unmatched";

const suretyOf: Record<MatchedColumn["by"], Surety> = {
  notebook: "certain",
  name: "certain",
  spelling: "certain",
  guess: "guessed",
  unmatched: "unmatched",
  dropped: "unmatched",
};

/** How the headings of the file were matched: guesses first, apart from what is certain. */
@customElement("matched-headings")
export class MatchedHeadings extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    sectionLook,
    css`
      .tables {
        overflow-x: auto;
      }

      details {
        margin-top: 10px;
      }

      summary {
        cursor: pointer;
        min-height: 26px;
      }

      summary h3 {
        display: inline;
      }

      .sample {
        color: var(--ink-soft);
      }

      form {
        display: flex;
        gap: 6px;
        flex-wrap: wrap;
      }

      select {
        max-width: 100%;
      }

      td.acts {
        white-space: nowrap;
        padding-right: 0;
        text-align: right;
      }
    `,
  ];

  @property({ attribute: false }) columns: readonly MatchedColumn[] = [];
  /** Names of columns of free text: no sample of theirs is shown. */
  @property({ attribute: false }) unseen: ReadonlySet<string> = new Set();
  /** The heading whose match is being chosen. */
  @state() private choosing: string | undefined;

  constructor() {
    super();
    new FocusKept(this);
  }

  override render(): TemplateResult {
    const isSure = this.columns.every(({ by }) => by === "notebook" || by === "dropped");
    return html`<p class="quiet">${labels.matchHelp}</p>
      <div class="foot large-only">
        ${
          isSure
            ? html`<p class="quiet">${labels.confirmed}</p>`
            : html`<button @click=${() => this.#keep({ all: true })}>${labels.confirmAll}</button>`
        }
      </div>
      <div class="tables" tabindex="0" role="region" aria-label=${labels.columnsTitle}>
        ${(["guessed", "certain", "unmatched"] as const).map((surety) => this.#table(surety))}
      </div>`;
  }

  protected override updated(changed: PropertyValues): void {
    if (changed.has("choosing") && this.choosing !== undefined)
      this.renderRoot.querySelector("select")?.focus();
  }

  #table(surety: Surety): TemplateResult | typeof nothing {
    const columns = this.columns.filter(({ by }) => suretyOf[by] === surety);
    if (columns.length === 0) return nothing;
    const title = html`<h3 id=${surety}>${labels[surety]} (${columns.length})</h3>`;
    // What is certain needs no look: it stays folded until it is asked for.
    if (surety !== "certain") return html`${title}${this.#rows(surety, columns)}`;
    return html`<details>
      <summary>${title}</summary>
      ${this.#rows(surety, columns)}
    </details>`;
  }

  #rows(surety: Surety, columns: readonly MatchedColumn[]): TemplateResult {
    return html`<table aria-labelledby=${surety}>
        <thead>
          <tr>
            <th scope="col">${labels.heading}</th>
            <th scope="col">${labels.field}</th>
            <th scope="col">${labels.matchedBy}</th>
            <th scope="col">${labels.sample}</th>
            <th scope="col" class="number">${labels.missing}</th>
            <td class="large-only"></td>
          </tr>
        </thead>
        <tbody>
          ${columns.map((column) => this.#row(column))}
        </tbody>
      </table>`;
  }

  #row(column: MatchedColumn): TemplateResult {
    const isChoosing = this.choosing === column.heading;
    return html`<tr>
      <th scope="row">${column.heading}</th>
      <td>${isChoosing ? this.#chooser(column) : (column.field ?? column.name ?? "–")}</td>
      <td>${labels.matching[column.by]}</td>
      <td class="sample">${this.unseen.has(column.name ?? "") ? labels.freeText : column.sample.slice(0, 3).join(", ")}</td>
      <td class="number">${countText(column.missing)}</td>
      <td class="acts large-only">${isChoosing ? nothing : this.#acts(column)}</td>
    </tr>`;
  }

  #acts({ heading, by, field }: MatchedColumn): TemplateResult {
    return html`${
      by === "guess" && field !== undefined
        ? html`<button
            aria-label=${labels.confirmMatchOf(heading, field)}
            @click=${() => this.#keep({ columns: [[heading, { field }]] })}
          >
            ${labels.confirmOne}
          </button>`
        : nothing
    }
      <button
        class="words"
        aria-label=${labels.changeMatchOf(heading)}
        @click=${() => {
          this.choosing = heading;
        }}
      >
        ${labels.changeMatch}
      </button>`;
  }

  #chooser(column: MatchedColumn): TemplateResult {
    return html`<form
      @submit=${(event: SubmitEvent) => this.#choose(event, column)}
      @keydown=${(event: KeyboardEvent) => {
        if (event.key === "Escape") this.choosing = undefined;
      }}
    >
      <select aria-label=${labels.standsFor(column.heading)}>
        ${matchChoices(column)}
      </select>
      <button class="first">${labels.keepMatch}</button>
      <button
        type="button"
        @click=${() => {
          this.choosing = undefined;
        }}
      >
        ${labels.cancel}
      </button>
    </form>`;
  }

  #choose(event: SubmitEvent, column: MatchedColumn): void {
    event.preventDefault();
    const select = (event.currentTarget as HTMLElement).querySelector("select");
    this.choosing = undefined;
    if (select === null) return;
    this.#keep({ columns: [[column.heading, chosenMatch(select.value, column)]] });
  }

  #keep(change: MatchingChange): void {
    send(this, { act: "change", request: { ask: "match columns", change } });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "matched-headings": MatchedHeadings;
  }
}
