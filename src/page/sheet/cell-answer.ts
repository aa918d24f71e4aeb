import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { type Answer, type LeftOut, sentenceText } from "../../questions/answer.ts";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import { textScale } from "../look/text-scale.ts";
import "./answer-chart.ts";
import "./answer-sentence.ts";
import "./answer-table.ts";
import { cautionList, cautionStyles } from "./caution-list.ts";
import { RoomWatch } from "./room-watch.ts";

/** Columns of a table that may stand beside the sentence; one with more goes below it. */
const mostBeside = 6;

/** Pixels across from which sentence and chart stand side by side, at the usual size of text. */
const leastWide = 780;

/** A question's answer: sentence, cautions and who was left out; beside or below, table and chart. */
@customElement("cell-answer")
export class CellAnswer extends LitElement {
  static override styles = [
    base,
    buttons,
    cautionStyles,
    css`
      :host {
        container-type: inline-size;
      }

      .answer {
        display: grid;
        grid-template: "sentence" "shown" "notes" / minmax(0, 1fr);
        gap: 10px 40px;
        align-items: start;
      }

      .wide {
        grid-template:
          "sentence shown" auto
          "notes shown" auto
          "table shown" 1fr / minmax(0, 5fr) minmax(0, 6fr);
      }

      .wide.broad {
        grid-template: "sentence notes" "shown shown" / minmax(0, 5fr) minmax(0, 6fr);
      }

      answer-sentence {
        grid-area: sentence;
        max-width: 78ch;
      }

      .shown,
      .notes {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 8px;
      }

      .shown {
        grid-area: shown;
      }

      .notes {
        grid-area: notes;
      }

      .beside {
        grid-area: table;
      }

      .small {
        color: var(--ink-soft);
        font-size: 0.8125rem;
      }

      .as button {
        border: 0;
        padding: 0 2px;
        min-height: 24px;
        font-size: 0.8125rem;
        color: var(--ink-soft);
      }

      .as button[aria-pressed="true"] {
        color: var(--ink);
        font-weight: 600;
        border-bottom: 2px solid var(--ink);
      }

      @media print {
        .wide,
        .wide.broad {
          grid-template: "sentence" "shown" "notes" / minmax(0, 1fr);
        }

        .as,
        .beside {
          display: none;
        }
      }
    `,
  ];

  @property() cell = "";
  @property({ attribute: false }) answer!: Answer;
  @property() picked = "";
  @property({ type: Boolean }) dark = false;
  /** What the reader chose to see; undefined until then. */
  @state() private chosenForm: "table" | "chart" | undefined;
  readonly #room = new RoomWatch(this);

  override render(): TemplateResult {
    const { answer } = this;
    const wide = this.#room.width >= leastWide * textScale();
    const form = this.chosenForm ?? firstForm(answer, wide);
    const broad = form === "table" && answer.table.columns.length > mostBeside;
    const both = wide && form === "chart" && answer.table.columns.length <= mostBeside;
    return html`<div class="answer ${wide ? "wide" : ""} ${broad ? "broad" : ""}">
      <answer-sentence
        .cell=${this.cell}
        .sentence=${answer.sentence}
        .picked=${this.picked}
      ></answer-sentence>
      <div class="shown">
        ${form === "chart" ? this.#chart(both) : this.#table()} ${this.#switch(form)}
      </div>
      <div class="notes">${cautionList(answer.cautions)} ${this.#leftOut(answer.leftOut)}</div>
      ${both ? html`<div class="beside">${this.#table()}</div>` : nothing}
    </div>`;
  }

  #table(unseen = false): TemplateResult | typeof nothing {
    const { answer } = this;
    if (answer.table.rows.length === 0) return nothing;
    return html`<answer-table
      .cell=${this.cell}
      .caption=${sentenceText(answer.sentence)}
      .table=${answer.table}
      .picked=${this.picked}
      .unseen=${unseen}
    ></answer-table>`;
  }

  /** Where no table stands beside the chart, one is there for screen readers. */
  #chart(tableBeside: boolean): TemplateResult {
    return html`<answer-chart
        .cell=${this.cell}
        .chart=${this.answer.chart}
        .table=${this.answer.table}
        .dark=${this.dark}
      ></answer-chart>
      ${tableBeside ? nothing : html`<div class="heard-only">${this.#table(true)}</div>`}`;
  }

  #switch(form: "table" | "chart"): TemplateResult | typeof nothing {
    const { answer } = this;
    if (answer.chart === undefined || answer.table.rows.length === 0) return nothing;
    const button = (of: "table" | "chart", text: string) =>
      html`<button
        aria-pressed=${form === of}
        @click=${() => {
          this.chosenForm = of;
        }}
      >
        ${text}
      </button>`;
    return html`<div class="as" role="group" aria-label=${labels.shownAs}>
      ${button("chart", labels.showChart)} ${button("table", labels.showTable)}
    </div>`;
  }

  #leftOut(leftOut: readonly LeftOut[]): TemplateResult | typeof nothing {
    const { answer } = this;
    if (leftOut.length === 0) return nothing;
    const parts = leftOut.map((part, i) => html`${i === 0 ? "" : "; "}${this.#leftOutPart(part)}`);
    return html`<p class="small">
      ${labels.used(answer.used, answer.unit)}. ${labels.leftOutTitle}: ${parts}.
    </p>`;
  }

  #leftOutPart(part: LeftOut): TemplateResult {
    const text = labels.leftOut(part.count, this.answer.unit, part.reason);
    const key = part.pick;
    if (key === undefined) return html`${text}`;
    return html`<button
      class="opens"
      aria-pressed=${this.picked === key}
      @click=${() => send(this, { act: "pick", cell: this.cell, key })}
      >${text}</button
    >`;
  }
}

/** A table with drawn intervals is its own chart where it has room; else a chart, if there is one. */
function firstForm({ chart, table }: Answer, wide: boolean): "table" | "chart" {
  const marked = table.columns.some(({ kind }) => kind === "mark");
  const fits = wide || table.columns.length <= mostBeside;
  return chart === undefined || (marked && fits) ? "table" : "chart";
}

declare global {
  interface HTMLElementTagNameMap {
    "cell-answer": CellAnswer;
  }
}
