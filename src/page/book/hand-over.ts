import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { usualSmallestCount } from "../../notebook/smallest-count.ts";
import { formatProblem } from "../../problem/format-problem.ts";
import type { DepartmentsReplies } from "../departments-protocol.ts";
import { type BookState, cellOrder, closedBook } from "../host/book-state.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import { columnsToGroupBy } from "./columns-to-group-by.ts";
import { downloadText } from "./download-text.ts";

type Written = DepartmentsReplies["write aggregates"];

/** Saves the aggregates of one's own cases as a file, and shows what is in it. */
@customElement("hand-over")
export class HandOver extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    css`
      section,
      form {
        display: grid;
        gap: 10px;
      }

      h3 {
        font: 600 1.0625rem / 1.3 var(--serif);
      }

      .quiet,
      legend {
        color: var(--ink-soft);
      }

      .row {
        display: flex;
        flex-wrap: wrap;
        gap: 6px 8px;
        align-items: center;
      }

      input[type="number"] {
        width: 8ch;
      }

      fieldset {
        border: 0;
        padding: 0;
        margin: 0;
        display: flex;
        flex-wrap: wrap;
        gap: 2px 16px;
      }

      fieldset label {
        display: flex;
        gap: 6px;
        align-items: center;
        min-height: 24px;
        color: var(--ink);
      }

      input[type="checkbox"] {
        accent-color: var(--ink);
        width: 16px;
        height: 16px;
        min-height: 0;
        margin: 0;
      }

      pre {
        margin: 6px 0 0;
        max-height: 240px;
        overflow: auto;
        font: 0.8125rem / 1.4 var(--fixed);
        white-space: pre-wrap;
      }
    `,
  ];

  @property({ attribute: false }) book: BookState = closedBook;
  @property({ attribute: false }) host: Host | undefined;
  @state() private written: Written | undefined;
  @state() private isMaking = false;

  override render(): TemplateResult {
    const cells = this.#cellsWithEyes();
    return html`<section aria-labelledby="own">
      <h3 id="own">${labels.handOver}</h3>
      ${
        cells.length === 0
          ? html`<p class="quiet">${labels.noEyesToHandOver}</p>`
          : this.#form(cells)
      }
      <div role="status">${this.#said()}</div>
    </section>`;
  }

  #cellsWithEyes(): readonly string[] {
    const { cells, notebook } = this.book;
    return cellOrder(notebook).filter((name) => cells.get(name)?.kind === "eyes");
  }

  #form(cells: readonly string[]): TemplateResult {
    const { unit = "", smallestCount = usualSmallestCount } = this.book.notebook ?? {};
    return html`<form @submit=${(event: SubmitEvent) => this.#save(event)}>
      <p class="quiet">${labels.handOverMeaning}</p>
      <div class="row">
        <label for="eyes">${labels.eyesToHandOver}</label>
        <select id="eyes" name="eyes">
          ${cells.map((cell) => html`<option>${cell}</option>`)}
        </select>
        <label for="unit">${labels.unitToHandOver}</label>
        <input id="unit" name="unit" maxlength="200" placeholder=${labels.unitLeftOut} .value=${unit} />
        <label for="smallest">${labels.smallestTold}</label>
        <input
          id="smallest"
          name="smallest"
          type="number"
          required
          min="2"
          max="9999"
          .value=${String(smallestCount)}
        />
      </div>
      ${this.#columns()}
      <div class="row">
        <button aria-disabled=${this.isMaking}>${labels.saveAggregates}</button>
      </div>
    </form>`;
  }

  #columns(): TemplateResult | typeof nothing {
    const columns = columnsToGroupBy(this.book.cases?.leaf?.columns ?? []);
    if (columns.length === 0) return nothing;
    return html`<details>
      <summary>${labels.groupAlsoBy}</summary>
      <fieldset>
        <legend class="heard-only">${labels.groupAlsoBy}</legend>
        ${columns.map(
          ({ name, label }) =>
            html`<label><input type="checkbox" name="by" value=${name} />${label}</label>`,
        )}
      </fieldset>
    </details>`;
  }

  #said(): TemplateResult | typeof nothing {
    const { written } = this;
    if (written === undefined) return nothing;
    if ("problems" in written) {
      return html`<p>${labels.aggregatesNotSaved}</p>
        ${written.problems.map((problem) => html`<pre>${formatProblem(problem)}</pre>`)}`;
    }
    const { name, text, told } = written;
    return html`<p>${labels.aggregatesSaved(name)}</p>
      <p>${labels.suppressed(told)}.</p>
      <details>
        <summary>${labels.readAggregates}</summary>
        <pre tabindex="0" role="region" aria-label=${labels.readAggregates}>${text}</pre>
      </details>`;
  }

  async #save(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    if (this.isMaking) return;
    const given = new FormData(event.target as HTMLFormElement);
    const textOf = (name: string) => String(given.get(name) ?? "").trim();
    const unit = textOf("unit");
    this.isMaking = true;
    try {
      this.written = await this.host?.ask({
        ask: "write aggregates",
        eyes: textOf("eyes"),
        ...(unit !== "" && { unit }),
        smallestCount: Number(textOf("smallest")),
        by: given.getAll("by").map(String),
      });
    } finally {
      this.isMaking = false;
    }
    if (this.written !== undefined && "text" in this.written) {
      downloadText(this.written, "application/json");
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "hand-over": HandOver;
  }
}
