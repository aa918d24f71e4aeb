import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Problem } from "../../problem/problem.ts";
import { send } from "../act.ts";
import { labels, sentenceCase } from "../labels.ts";
import { base, buttons } from "../look/base.ts";

/** What is wrong in a working: where it lies, underlined, what would be right, and how to mend it. */
@customElement("cell-fault")
export class CellFault extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      .fault + .fault {
        margin-top: 10px;
      }

      .message {
        font-weight: 600;
      }

      code {
        display: block;
        font: 0.8125rem / 1.5 var(--fixed);
        white-space: pre-wrap;
        overflow-wrap: anywhere;
        margin-bottom: 4px;
      }

      code.in {
        display: inline;
        font-size: 0.95em;
      }

      u {
        text-decoration: underline wavy var(--ink);
        text-underline-offset: 3px;
      }
    `,
  ];

  @property() cell = "";
  @property() working = "";
  /** On the desk: the working stands above, its faults underlined. */
  @property({ type: Boolean }) brief = false;
  @property({ attribute: false }) problems: readonly Problem[] = [];

  override render(): TemplateResult {
    return html`${this.problems.map((problem) => this.#fault(problem))}`;
  }

  #fault(problem: Problem): TemplateResult {
    return html`<div class="fault">
      ${this.#excerpt(problem)}
      <p class="message">${withCode(sentenceCase(problem.message))}</p>
      ${this.#found(problem)}
      ${problem.expected === undefined ? nothing : html`<p>${withCode(labels.expected(problem.expected))}</p>`}
      ${problem.remedy === undefined ? nothing : html`<p>${withCode(labels.remedy(problem.remedy))}</p>`}
      ${this.#mendButton(problem)}
    </div>`;
  }

  /** What was found, where the working does not show it underlined already. */
  #found({ found, place }: Problem): TemplateResult | typeof nothing {
    return found === undefined || place.span !== undefined
      ? nothing
      : html`<p>${withCode(labels.found(found))}</p>`;
  }

  #excerpt(problem: Problem): TemplateResult | typeof nothing {
    const span = problem.place.span;
    if (span === undefined || this.brief) return nothing;
    const { working } = this;
    // A fault at the very end of the working still needs something to underline.
    const under = working.slice(span.start, span.end) || " ";
    return html`<code
      >${working.slice(0, span.start)}<u>${under}</u>${working.slice(Math.max(span.start, span.end))}</code
    >`;
  }

  #mendButton(problem: Problem): TemplateResult | typeof nothing {
    const { replacement, place } = problem;
    if (replacement === undefined || place.span === undefined) return nothing;
    const { start, end } = place.span;
    const working = this.working.slice(0, start) + replacement + this.working.slice(end);
    const request = { ask: "set working", cell: this.cell, working } as const;
    return html`<button @click=${() => send(this, { act: "change", request })}>
      ${labels.mend(replacement)}
    </button>`;
  }
}

/** What a message has between backticks is part of a working. */
function withCode(text: string): unknown {
  return text
    .split("`")
    .map((part, i) => (i % 2 === 1 ? html`<code class="in">${part}</code>` : part));
}

declare global {
  interface HTMLElementTagNameMap {
    "cell-fault": CellFault;
  }
}
