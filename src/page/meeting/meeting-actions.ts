import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import "../sheet/prose-block.ts";

/** The last page: what the meeting agreed to do, kept in the notebook as it is typed. */
@customElement("meeting-actions")
export class MeetingActions extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    css`
      .page {
        max-width: 1180px;
        margin: 0 auto;
        padding: clamp(16px, 4vh, 48px) 28px;
        display: grid;
        gap: clamp(12px, 2.4vh, 26px);
      }

      h2 {
        font: 400 clamp(22px, 2.6vw, 38px) / 1.3 var(--serif);
      }

      prose-block {
        --prose-size: clamp(17px, 1.5vw, 24px);
      }

      p {
        color: var(--ink-soft);
        font-size: clamp(15px, 1.2vw, 18px);
      }

      form {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
        align-items: center;
      }

      input {
        flex: 1 1 320px;
        font-size: clamp(16px, 1.3vw, 20px);
        min-height: 36px;
      }

      button {
        min-height: 36px;
        padding-inline: 18px;
      }

      label {
        flex-basis: 100%;
      }

      @media print {
        form {
          display: none;
        }
      }
    `,
  ];

  /** The actions as they stand in the notebook, in CommonMark. */
  @property({ attribute: false }) actions: readonly string[] = [];
  @query("input") private readonly field!: HTMLInputElement;

  override render(): TemplateResult {
    return html`<article class="page">
      <h2>${labels.actionsPage}</h2>
      ${
        this.actions.length === 0
          ? html`<p>${labels.noActions}</p>`
          : this.actions.map((text) => html`<prose-block .text=${text}></prose-block>`)
      }
      <form @submit=${(event: Event) => this.#agree(event)}>
        <label for="action">${labels.actionName}</label>
        <input id="action" autocomplete="off" />
        <button class="first">${labels.agree}</button>
      </form>
      <p>${labels.actionsKept}</p>
    </article>`;
  }

  #agree(event: Event): void {
    event.preventDefault();
    const action = this.field.value.trim();
    if (action === "") return;
    send(this, { act: "change", request: { ask: "agree", action } });
    this.field.value = "";
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "meeting-actions": MeetingActions;
  }
}
