import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { send } from "../act.ts";
import type { Picked } from "../host/book-state.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";

/** Rows drawn at once: a number may have every eye of the file behind it. */
const mostRows = 500;

/** The eyes behind the number that the reader picked, with their lines in the file. */
@customElement("eyes-behind")
export class EyesBehind extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      :host {
        display: grid;
        gap: 8px;
      }

      h2 {
        font: 400 0.8125rem / 1.3 var(--sans);
        color: var(--ink-soft);
      }

      p {
        color: var(--ink-soft);
      }

      .rows {
        overflow-x: auto;
      }

      table {
        border-collapse: collapse;
        min-width: 80%;
        font-variant-numeric: tabular-nums lining-nums;
      }

      th,
      td {
        text-align: left;
        font-weight: 400;
        padding: 3px 18px 3px 0;
        border-bottom: 1px solid var(--hairline);
        white-space: nowrap;
      }

      th {
        color: var(--ink-soft);
        font-size: 0.78125rem;
      }
    `,
  ];

  @property({ attribute: false }) picked: Picked | undefined;
  /** Whether the cell shows a number that can be picked. */
  @property({ type: Boolean }) offered = true;

  override render(): TemplateResult {
    const { picked } = this;
    if (picked === undefined) {
      return html`<h2>${labels.theEyes}</h2>
        <p>${this.offered ? labels.pickNumber : labels.noNumberToPick}</p>`;
    }
    const { headings, rows } = picked.behind;
    return html`<h2>${labels.eyesBehind(picked.title)}</h2>
      <div class="rows" tabindex="0" role="region" aria-label=${labels.eyesBehind(picked.title)}>
        <table>
          <thead>
            <tr>
              ${[labels.line, ...headings].map((heading) => html`<th scope="col">${heading}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${rows.slice(0, mostRows).map(
              ({ lines, texts }) =>
                html`<tr>
                  ${[labels.lines(lines), ...texts].map((text) => html`<td>${text}</td>`)}
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      <p>
        ${labels.rowsBehind(rows.length, Math.min(rows.length, mostRows))}
        <button @click=${() => this.#openInCases(picked)}>${labels.openInCases}</button>
      </p>`;
  }

  #openInCases({ title, behind }: Picked): void {
    const lines = behind.rows.flatMap((row) => row.lines);
    send(this, { act: "show lines", lines, title });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "eyes-behind": EyesBehind;
  }
}
