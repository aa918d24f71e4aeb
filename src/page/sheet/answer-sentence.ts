import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Sentence, SentencePart } from "../../questions/answer.ts";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import { splitSentence } from "../meeting/brief-sentence.ts";

/** The answer in words. Its numbers open the eyes behind them. */
@customElement("answer-sentence")
export class AnswerSentence extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      p {
        font: 400 var(--sentence-size, 1.125rem) / 1.4 var(--serif);
        font-variant-numeric: tabular-nums lining-nums;
        text-wrap: pretty;
      }

      /* What follows the first sentence is read second. */
      .rest {
        font-size: calc(var(--rest-share, 0.86) * 1em);
      }

      .whole {
        white-space: nowrap;
      }

      .failed {
        color: var(--failed);
        font-weight: 700;
      }

      .attached {
        color: var(--attached);
        font-weight: 700;
      }
    `,
  ];

  @property() cell = "";
  @property({ attribute: false }) sentence: Sentence = [];
  /** Key of the number whose eyes are shown on the desk. */
  @property() picked = "";
  /** For the meeting: nothing opens. */
  @property({ type: Boolean }) plain = false;

  override render(): TemplateResult {
    const { brief, rest } = splitSentence(this.sentence);
    const draw = (parts: Sentence) => parts.map((part) => this.#part(part));
    if (rest.length === 0) return html`<p>${draw(brief)}</p>`;
    return html`<p>${draw(brief)} <span class="rest">${draw(rest)}</span></p>`;
  }

  #part(part: string | SentencePart): TemplateResult {
    if (typeof part === "string") return html`${keptWhole(part)}`;
    if (part.pick === undefined || this.plain) {
      return html`<span class=${part.role ?? ""}>${part.text}</span>`;
    }
    const key = part.pick;
    return html`<button
      class="opens ${part.role ?? ""}"
      aria-pressed=${this.picked === key}
      title=${labels.behindNumber(part.text)}
      @click=${() => send(this, { act: "pick", cell: this.cell, key })}
      >${part.text}</button
    >`;
  }
}

/** A day and "p = 0.03" stay on one line each. */
function keptWhole(text: string): readonly (string | TemplateResult)[] {
  return text
    .split(/(\d{4}-\d{2}-\d{2}|\bp [=<] [\d.]*\d)/)
    .map((piece, i) => (i % 2 === 0 ? piece : html`<span class="whole">${piece}</span>`));
}

declare global {
  interface HTMLElementTagNameMap {
    "answer-sentence": AnswerSentence;
  }
}
