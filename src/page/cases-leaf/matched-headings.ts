import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { MatchedColumn } from "../../cases/case-reading.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";

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
    css`
      .tables {
        overflow-x: auto;
      }

      h3 {
        font: 600 14px / 1.4 var(--sans);
        margin-top: 10px;
      }

      table {
        border-collapse: collapse;
        width: 100%;
      }

      th,
      td {
        text-align: left;
        font-weight: 400;
        padding: 3px 16px 3px 0;
        border-bottom: 1px solid var(--row-line);
        vertical-align: baseline;
      }

      thead th {
        color: var(--ink-soft);
        font-size: 12.5px;
      }

      .number {
        text-align: right;
        padding-right: 0;
      }

      .sample {
        color: var(--ink-soft);
        overflow-wrap: anywhere;
      }
    `,
  ];

  @property({ attribute: false }) columns: readonly MatchedColumn[] = [];

  override render(): TemplateResult {
    return html`<div class="tables" tabindex="0" role="region" aria-label=${labels.columnsTitle}>
      ${(["guessed", "certain", "unmatched"] as const).map((surety) => this.#table(surety))}
    </div>`;
  }

  #table(surety: Surety): TemplateResult | typeof nothing {
    const columns = this.columns.filter(({ by }) => suretyOf[by] === surety);
    if (columns.length === 0) return nothing;
    return html`<h3 id=${surety}>${labels[surety]} (${columns.length})</h3>
      <table aria-labelledby=${surety}>
        <thead>
          <tr>
            <th scope="col">${labels.heading}</th>
            <th scope="col">${labels.field}</th>
            <th scope="col">${labels.matchedBy}</th>
            <th scope="col">${labels.sample}</th>
            <th scope="col" class="number">${labels.missing}</th>
          </tr>
        </thead>
        <tbody>
          ${columns.map(row)}
        </tbody>
      </table>`;
  }
}

function row(column: MatchedColumn): TemplateResult {
  return html`<tr>
    <th scope="row">${column.heading}</th>
    <td>${column.field ?? column.name ?? "–"}</td>
    <td>${labels.matching[column.by]}</td>
    <td class="sample">${column.sample.slice(0, 3).join(", ")}</td>
    <td class="number">${column.missing.toLocaleString("en-GB")}</td>
  </tr>`;
}
