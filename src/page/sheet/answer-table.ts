import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { AnswerCell, AnswerColumn, AnswerTable as Table } from "../../questions/answer.ts";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import { intervalMark } from "./interval-mark.ts";

/** The answer as a table in tabular numerals. Dotted counts open the eyes behind them. */
@customElement("answer-table")
export class AnswerTable extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      .scroll {
        overflow-x: auto;
      }

      .scroll:focus-visible {
        outline-offset: -2px;
      }

      table {
        border-collapse: collapse;
        width: 100%;
        font-size: var(--table-size, 0.875rem);
        font-variant-numeric: tabular-nums lining-nums;
      }

      th,
      td {
        padding: 5px 18px 5px 0;
        text-align: left;
        font-weight: 400;
        vertical-align: baseline;
        border-bottom: 1px solid var(--row-line);
      }

      thead > tr > * {
        color: var(--ink-soft);
        font-size: calc(var(--heading-share, 0.93) * 1em);
        border-bottom-color: var(--hairline);
        vertical-align: bottom;
      }

      th.number,
      td.number {
        text-align: right;
        white-space: nowrap;
      }

      tbody th {
        min-width: 9ch;
      }

      /* Large enough to be pressed with a finger; the numbers stay where they stand. */
      button.opens {
        padding: 3px 6px;
        margin: -3px -6px;
      }

      td.mark,
      th.mark {
        width: 1%;
        padding-block: 0;
        vertical-align: middle;
      }

      tr > :last-child {
        padding-right: 4px;
      }

      @media print {
        .scroll {
          overflow: visible;
        }

        tr {
          break-inside: avoid;
        }
      }

      svg.interval {
        display: block;
        width: var(--mark-width, 220px);
        height: auto;
      }

      .reach {
        stroke: var(--failed);
        stroke-width: 1.75;
      }

      .rate {
        fill: var(--failed);
      }

      .reference {
        stroke: var(--edge-strong);
        stroke-width: 1;
        stroke-dasharray: 2 2;
      }

      @media (forced-colors: active) {
        .reach,
        .reference {
          stroke: CanvasText;
        }

        .rate {
          fill: CanvasText;
        }
      }
    `,
  ];

  @property() cell = "";
  @property() caption = "";
  @property({ attribute: false }) table: Table = { columns: [], rows: [] };
  /** Key of the number whose eyes are shown on the desk. */
  @property() picked = "";
  /** For the meeting: nothing opens, and the keyboard can scroll it. */
  @property({ type: Boolean }) plain = false;
  /** For the twin of a chart that is only heard. */
  @property({ type: Boolean }) unseen = false;

  override render(): TemplateResult {
    if (this.unseen) return this.#table();
    if (!this.plain && this.#opens()) return html`<div class="scroll">${this.#table()}</div>`;
    return html`<div class="scroll" tabindex="0" role="region" aria-label=${this.caption || labels.showTable}>
      ${this.#table()}
    </div>`;
  }

  /** Whether a number in it opens: then the keyboard can go there, and so scroll the table. */
  #opens(): boolean {
    return this.table.rows.some((row) => row.some(({ pick }) => pick !== undefined));
  }

  /** Where its rows end, in pixels of the window. */
  rowEnds(): readonly number[] {
    const rows = [...this.renderRoot.querySelectorAll("tbody tr")];
    return rows.map((row) => row.getBoundingClientRect().bottom);
  }

  #table(): TemplateResult {
    const { columns, rows } = this.table;
    return html`<table>
      <caption class="heard-only">${this.caption}</caption>
      <thead>
        <tr>${columns.map(heading)}</tr>
      </thead>
      <tbody>
        ${rows.map((row) => html`<tr>${row.map((cell, i) => this.#cell(cell, columns[i], i))}</tr>`)}
      </tbody>
    </table>`;
  }

  #cell(cell: AnswerCell, column: AnswerColumn | undefined, position: number): TemplateResult {
    const kind = column?.kind ?? "text";
    if (position === 0 && kind === "text" && cell.text !== "") {
      return html`<th scope="row" class=${kind}>${this.#content(cell)}</th>`;
    }
    return html`<td class=${kind}>${this.#content(cell)}</td>`;
  }

  #content(cell: AnswerCell): unknown {
    if (cell.mark !== undefined) return intervalMark(cell.mark);
    if (cell.pick === undefined || this.plain || this.unseen)
      return cell.text === "" ? nothing : cell.text;
    const key = cell.pick;
    return html`<button
      class="opens"
      aria-pressed=${this.picked === key}
      title=${labels.behindNumber(cell.text)}
      @click=${() => send(this, { act: "pick", cell: this.cell, key })}
      >${cell.text}</button
    >`;
  }
}

function heading({ kind, label }: AnswerColumn): TemplateResult {
  if (label === "") return html`<td class=${kind}></td>`;
  return html`<th scope="col" class=${kind}>${label}</th>`;
}

declare global {
  interface HTMLElementTagNameMap {
    "answer-table": AnswerTable;
  }
}
