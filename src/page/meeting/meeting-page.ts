import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { type Answer, type Sentence, sentenceText } from "../../questions/answer.ts";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import type { CellView, MinutedView } from "../protocol.ts";
import "../sheet/answer-chart.ts";
import "../sheet/answer-sentence.ts";
import "../sheet/answer-table.ts";
import { cautionList, cautionStyles } from "../sheet/caution-list.ts";
import { sentencesOf } from "./brief-sentence.ts";
import type { Mask } from "./hide-people.ts";
import { meetingPageLook } from "./meeting-page-look.ts";
import "./meeting-table.ts";
import { standsBeside } from "./stage-side.ts";
import { WideWindow } from "./wide-window.ts";

/**
 * One finding for the room, all of it to be seen at once: the question, the sentence, its chart or
 * table as large as there is room, and folded at the foot the whole sentence and the cautions.
 */
@customElement("meeting-page")
export class MeetingPage extends LitElement {
  static override styles = [base, buttons, cautionStyles, meetingPageLook];

  @property({ attribute: false }) view!: CellView;
  /** The answer as the room may see it. */
  @property({ attribute: false }) answer!: Answer;
  /** How texts of the notebook are written for the room. */
  @property({ attribute: false }) mask: Mask = (text) => text;
  @property({ type: Boolean }) dark = false;
  readonly #wide = new WideWindow(this);

  override render(): TemplateResult {
    const { answer, view } = this;
    const { brief, rest } = sentencesOf(answer);
    const minuted = view.minuted.map((each) => masked(each, this.mask));
    const side = standsBeside(answer.chart) ? "beside" : "below";
    return html`<article class="page ${side} ${sentenceLength(brief)}">
      <h2>${answer.asks}</h2>
      <answer-sentence class="brief" plain .sentence=${brief}></answer-sentence>
      <div class="stage">${this.#shown(answer)}</div>
      <div class="foot" @keydown=${foldByKey}>
        ${rest.length === 0 ? nothing : folded(labels.inFull, wholeSentence(rest))}
        ${
          answer.cautions.length === 0
            ? nothing
            : folded(labels.cautionsFolded(answer.cautions.length), cautionList(answer.cautions))
        }
        ${minuted.map(told)} ${this.#keep(view)}
      </div>
      <div class="on-paper">
        ${rest.length === 0 ? nothing : wholeSentence(rest)} ${cautionList(answer.cautions)}
        ${minuted.map((each) => html`<p>${toldText(each)}</p>`)}
        <p>${labels.caution}</p>
      </div>
    </article>`;
  }

  #shown(answer: Answer): TemplateResult | typeof nothing {
    const caption = sentenceText(answer.sentence);
    if (answer.chart === undefined) {
      if (answer.table.rows.length === 0) return nothing;
      return html`<meeting-table
        .caption=${caption}
        .table=${answer.table}
        .fits=${this.#wide.is}
      ></meeting-table>`;
    }
    return html`<answer-chart
        plain
        .chart=${answer.chart}
        .table=${answer.table}
        .dark=${this.dark}
        .fits=${this.#wide.is}
      ></answer-chart>
      <div class="heard-only">
        <answer-table unseen .caption=${caption} .table=${answer.table}></answer-table>
      </div>`;
  }

  /** What is minuted now is checked from now on; the same is not offered twice. */
  #keep({ name, toMinute, minuted }: CellView): TemplateResult | typeof nothing {
    if (toMinute === undefined) return nothing;
    if (minuted.some(({ text, holds }) => holds && text === toMinute)) return nothing;
    const request = { ask: "minute", cell: name, text: toMinute } as const;
    return html`<button
      class="keep"
      title=${labels.keepToldTitle(this.mask(toMinute))}
      @click=${() => send(this, { act: "change", request })}
    >
      ${labels.keepTold}
    </button>`;
  }
}

function masked({ date, text, holds, now, because }: MinutedView, mask: Mask): MinutedView {
  return {
    ...{ date, holds, text: mask(text), because: because.map(mask) },
    ...(now === undefined ? {} : { now: mask(now) }),
  };
}

/** One line that opens over the chart; only one is open at a time. */
function folded(summary: string, inside: unknown): TemplateResult {
  return html`<details name="foot">
    <summary>${summary}</summary>
    <div class="opened">${inside}</div>
  </details>`;
}

/** Escape folds what is open, and leaves the keyboard on its line. */
function foldByKey(event: KeyboardEvent): void {
  const open = (event.currentTarget as HTMLElement).querySelector("details[open]");
  if (event.key !== "Escape" || !(open instanceof HTMLDetailsElement)) return;
  open.open = false;
  open.querySelector("summary")?.focus();
  event.stopPropagation();
}

function wholeSentence(sentence: Sentence): TemplateResult {
  return html`<answer-sentence class="whole" plain .sentence=${sentence}></answer-sentence>`;
}

/** What still holds is one line; what moved opens, and says what it is now and why. */
function told(minuted: MinutedView): TemplateResult {
  if (!minuted.holds) {
    return html`<div class="told moved">
      ${folded(labels.movedSince(minuted.date, minuted.text), html`<p>${toldText(minuted)}</p>`)}
    </div>`;
  }
  return html`<p class="told">${toldText(minuted)}</p>`;
}

function toldText({ date, text, holds, now, because }: MinutedView): string {
  const moved = now === undefined ? labels.minutedHolds : labels.minutedMoved(now, because);
  return `${labels.minuted(date, text)} · ${holds ? labels.minutedHolds : moved}`;
}

/** The longer the sentence, the smaller it is set: it should not fill the page. */
function sentenceLength(sentence: Sentence): "short" | "middling" | "long" {
  const { length } = sentenceText(sentence);
  if (length > 260) return "long";
  return length > 150 ? "middling" : "short";
}

declare global {
  interface HTMLElementTagNameMap {
    "meeting-page": MeetingPage;
  }
}
