import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { type Answer, sentenceText } from "../../questions/answer.ts";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import type { CellView, MinutedView } from "../protocol.ts";
import "../sheet/answer-chart.ts";
import "../sheet/answer-sentence.ts";
import "../sheet/answer-table.ts";
import { cautionList, cautionStyles } from "../sheet/caution-list.ts";
import { sentencesOf } from "./brief-sentence.ts";
import { meetingPageLook } from "./meeting-page-look.ts";

/** One finding for the room: the question, the sentence, its chart or table, its cautions. */
@customElement("meeting-page")
export class MeetingPage extends LitElement {
  static override styles = [base, buttons, cautionStyles, meetingPageLook];

  @property({ attribute: false }) view!: CellView;
  /** The answer as the room may see it. */
  @property({ attribute: false }) answer!: Answer;
  @property({ type: Boolean }) dark = false;

  override render(): TemplateResult {
    const { answer, view } = this;
    const { brief, rest } = sentencesOf(answer);
    return html`<article
      class="page"
      style="--brief-size: ${sentenceSize(sentenceText(brief).length)}"
    >
      <h2>${answer.asks}</h2>
      <answer-sentence class="brief" plain .sentence=${brief}></answer-sentence>
      ${
        rest.length === 0
          ? nothing
          : html`<answer-sentence class="rest" plain .sentence=${rest}></answer-sentence>`
      }
      ${this.#shown(answer)} ${cautionList(answer.cautions)}
      ${view.minuted.map(told)} ${this.#keep(view)}
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
        plain
        .chart=${answer.chart}
        .table=${answer.table}
        .dark=${this.dark}
        .scale=${1.35}
      ></answer-chart>
      <div class="heard-only">${table}</div>`;
  }

  /** What is minuted now is checked from now on; the same is not offered twice. */
  #keep({ name, toMinute, minuted }: CellView): TemplateResult | typeof nothing {
    if (toMinute === undefined) return nothing;
    if (minuted.some(({ text, holds }) => holds && text === toMinute)) return nothing;
    const request = { ask: "minute", cell: name, text: toMinute } as const;
    return html`<button
      class="keep"
      title=${labels.keepToldTitle(toMinute)}
      @click=${() => send(this, { act: "change", request })}
    >
      ${labels.keepTold}
    </button>`;
  }
}

function told({ date, text, holds, now, because }: MinutedView): TemplateResult {
  const moved = now === undefined ? labels.minutedHolds : labels.minutedMoved(now, because);
  return html`<p class="told ${holds ? "" : "moved"}">
    ${labels.minuted(date, text)} · ${holds ? labels.minutedHolds : moved}
  </p>`;
}

/** The longer the sentence, the smaller: it should not fill the page. */
function sentenceSize(length: number): string {
  if (length > 260) return "clamp(19px, 1.9vw, 28px)";
  return length > 150 ? "clamp(20px, 2.2vw, 32px)" : "clamp(22px, 2.6vw, 38px)";
}

declare global {
  interface HTMLElementTagNameMap {
    "meeting-page": MeetingPage;
  }
}
