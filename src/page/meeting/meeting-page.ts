import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { type Answer, sentenceText } from "../../questions/answer.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";
import type { CellView } from "../protocol.ts";
import "../sheet/answer-chart.ts";
import "../sheet/answer-sentence.ts";
import "../sheet/answer-table.ts";
import { cautionList, cautionStyles } from "../sheet/caution-list.ts";

/** One finding for the room: the question, the sentence, its chart or table, its cautions. */
@customElement("meeting-page")
export class MeetingPage extends LitElement {
  static override styles = [
    base,
    cautionStyles,
    css`
      .page {
        max-width: 1180px;
        margin: 0 auto;
        padding: clamp(16px, 4vh, 48px) 28px;
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: clamp(14px, 3vh, 30px);
        --table-size: clamp(15px, 1.4vw, 20px);
        --mark-width: clamp(200px, 24vw, 380px);
        --caution-size: clamp(15px, 1.2vw, 18px);
      }

      .on-paper {
        display: none;
        color: var(--ink-soft);
      }

      @media print {
        .page {
          padding: 0;
          --sentence-size: 16pt !important;
        }

        .on-paper {
          display: block;
        }
      }

      h2 {
        font: 400 clamp(16px, 1.4vw, 20px) / 1.3 var(--sans);
        color: var(--ink-soft);
      }
    `,
  ];

  @property({ attribute: false }) view!: CellView;
  @property({ type: Boolean }) dark = false;

  override render(): TemplateResult {
    const { answer } = this.view;
    if (answer === undefined) return html``;
    const length = sentenceText(answer.sentence).length;
    return html`<article class="page" style="--sentence-size: ${sentenceSize(length)}">
      <h2>${answer.asks}</h2>
      <answer-sentence plain .sentence=${answer.sentence}></answer-sentence>
      ${this.#shown(answer)} ${cautionList(answer.cautions)}
      <p class="on-paper">${labels.caution}</p>
    </article>`;
  }

  #shown(answer: Answer): TemplateResult | typeof nothing {
    const table = html`<answer-table
      ?plain=${answer.chart === undefined}
      ?unseen=${answer.chart !== undefined}
      .caption=${sentenceText(answer.sentence)}
      .table=${answer.table}
    ></answer-table>`;
    if (answer.chart === undefined) {
      return answer.table.rows.length === 0 ? nothing : table;
    }
    return html`<answer-chart
        .chart=${answer.chart}
        .dark=${this.dark}
        .scale=${1.35}
      ></answer-chart>
      <div class="heard-only">${table}</div>`;
  }
}

/** The longer the sentence, the smaller: it should not fill the page. */
function sentenceSize(length: number): string {
  if (length > 340) return "clamp(18px, 1.55vw, 24px)";
  return length > 180 ? "clamp(19px, 1.9vw, 28px)" : "clamp(21px, 2.3vw, 34px)";
}

declare global {
  interface HTMLElementTagNameMap {
    "meeting-page": MeetingPage;
  }
}
