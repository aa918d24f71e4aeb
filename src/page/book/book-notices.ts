import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { formatProblem } from "../../problem/format-problem.ts";
import { send } from "../act.ts";
import type { Notice } from "../host/book-state.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import type { Mask } from "../meeting/hide-people.ts";
import type { ProgressView } from "../protocol.ts";

/** What could not be done, what broke, and long work on its way. */
@customElement("book-notices")
export class BookNotices extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      .notice {
        display: flex;
        gap: 16px;
        align-items: start;
        padding: 8px 28px;
        border-bottom: 1px solid var(--hairline);
        border-left: 4px solid var(--ink);
        background: var(--leaf);
      }

      .notice div {
        flex: 1;
      }

      pre {
        margin: 4px 0 0;
        font: 0.8125rem / 1.4 var(--fixed);
        white-space: pre-wrap;
      }

      .progress {
        padding: 6px 28px;
        border-bottom: 1px solid var(--hairline);
      }

      /* Over the sheet, so that nothing moves, and only once it has lasted. */
      .progress.over {
        position: fixed;
        right: 28px;
        top: 60px;
        z-index: 6;
        background: var(--leaf);
        border: 1px solid var(--edge-strong);
        animation: lasting 1ms 400ms backwards;
      }

      @keyframes lasting {
        from {
          visibility: hidden;
        }
      }

      .progress button {
        margin-left: 12px;
      }

      progress {
        accent-color: var(--ink);
        vertical-align: middle;
        margin-left: 12px;
      }
    `,
  ];

  @property({ attribute: false }) notices: readonly Notice[] = [];
  /** How a notice is written for whoever looks on. */
  @property({ attribute: false }) mask: Mask = (text) => text;
  @property({ attribute: false }) progress: ProgressView | undefined;

  override render(): TemplateResult {
    return html`<div role="alert">${this.notices.map((notice) => this.#notice(notice))}</div>
      <div role="status">${this.progress === undefined ? nothing : this.#progress(this.progress)}</div>`;
  }

  #notice(notice: Notice): TemplateResult {
    return html`<div class="notice">
      <div>
        ${this.mask(notice.text)}
        ${notice.problems.map((problem) => html`<pre>${this.mask(formatProblem(problem))}</pre>`)}
      </div>
      <button @click=${() => send(this, { act: "put away", notice: notice.id })}>
        ${labels.putAway}
      </button>
    </div>`;
  }

  #progress(progress: ProgressView): TemplateResult {
    return html`<p class="progress ${progress.canStop ? "over" : ""}">
      ${progress.stopped ? labels.recalculationStopped : progress.doing}
      <progress
        aria-label=${progress.doing}
        max="1"
        value=${progress.share ?? nothing}
      ></progress>
      ${progress.canStop ? this.#hold(progress.stopped === true) : nothing}
    </p>`;
  }

  #hold(stopped: boolean): TemplateResult {
    const request = { ask: stopped ? "go on" : "stop" } as const;
    return html`<button @click=${() => send(this, { act: "hold", request })}>
      ${stopped ? labels.goOn : labels.stop}
    </button>`;
  }
}
