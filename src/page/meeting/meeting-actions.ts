import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import "../sheet/prose-block.ts";
import type { Mask } from "./hide-people.ts";
import { type ActionItem, actionItems } from "./meeting-pages.ts";

/** The last page: what the meeting agreed to do, kept in the notebook as it is typed. */
@customElement("meeting-actions")
export class MeetingActions extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    css`
      :host {
        font-size: clamp(20px, 1.4vw, 32px);
      }

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
        --prose-size: clamp(20px, 1.5vw, 34px);
      }

      p {
        color: var(--ink-soft);
        font-size: inherit;
      }

      form {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
        align-items: end;
      }

      input {
        width: 100%;
        font-size: inherit;
        min-height: 40px;
      }

      button {
        font-size: inherit;
        min-height: 40px;
        padding-inline: 18px;
      }

      label {
        flex: 1 1 320px;
        display: grid;
        gap: 2px;
      }

      .role,
      .until {
        flex: 1 1 170px;
      }

      .action {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 2px 12px;
      }

      .action prose-block {
        flex: 1 1 240px;
        padding-block: 4px;
      }

      @media (max-width: 700px) {
        :host {
          font-size: 16px;
        }
      }

      @media print {
        form,
        .action button {
          display: none;
        }
      }
    `,
  ];

  /** The actions as they stand in the notebook, in CommonMark. */
  @property({ attribute: false }) actions: readonly string[] = [];
  /** How they are written for the room. */
  @property({ attribute: false }) mask: Mask = (text) => text;
  /** The one that is being rewritten, with the codes that it has: it is written as it stands. */
  @state() private changing: string | undefined;

  override render(): TemplateResult {
    return html`<article class="page">
      <h2>${labels.actionsPage}</h2>
      ${
        this.actions.length === 0
          ? html`<p>${labels.noActions}</p>`
          : actionItems(this.actions).map((item) => this.#item(item))
      }
      <form @submit=${(event: SubmitEvent) => this.#agree(event)}>
        ${field("what", labels.actionName)} ${field("role", labels.actionBy)}
        ${field("until", labels.actionUntil, "date")}
        <button class="first">${labels.agree}</button>
      </form>
      <p>${labels.actionsKept}</p>
    </article>`;
  }

  #item({ text, isItem }: ActionItem): TemplateResult {
    const shown = this.mask(text);
    if (!isItem) return html`<prose-block .text=${shown}></prose-block>`;
    if (text === this.changing) return this.#rewriting(text);
    return html`<div class="action">
      <prose-block .text=${`- ${shown}`}></prose-block>
      <button
        class="words"
        aria-label=${labels.changeActionName(shown)}
        @click=${() => {
          this.changing = text;
        }}
      >
        ${labels.changeAction}
      </button>
      <button
        class="words"
        aria-label=${labels.removeActionName(shown)}
        @click=${() => change(this, text)}
      >
        ${labels.removeAction}
      </button>
    </div>`;
  }

  #rewriting(text: string): TemplateResult {
    return html`<form @submit=${(event: SubmitEvent) => this.#rewrite(event, text)}>
      <label>${labels.actionAs}<input name="what" autocomplete="off" .value=${text} /></label>
      <button class="first">${labels.keepChange}</button>
      <button
        type="button"
        @click=${() => {
          this.changing = undefined;
        }}
      >
        ${labels.leaveAction}
      </button>
    </form>`;
  }

  #agree(event: SubmitEvent): void {
    const form = submitted(event);
    const what = entry(form, "what");
    if (what === "") return;
    const action = labels.actionText({
      what,
      role: entry(form, "role"),
      until: entry(form, "until"),
    });
    send(this, { act: "change", request: { ask: "agree", action } });
    form.reset();
  }

  #rewrite(event: SubmitEvent, text: string): void {
    const to = entry(submitted(event), "what");
    if (to === "") return;
    if (to !== text) change(this, text, to);
    this.changing = undefined;
  }
}

function field(name: string, label: string, type = "text"): TemplateResult {
  return html`<label class=${name}
    >${label}<input name=${name} type=${type} autocomplete="off"
  /></label>`;
}

function submitted(event: SubmitEvent): HTMLFormElement {
  event.preventDefault();
  return event.target as HTMLFormElement;
}

function entry(form: HTMLFormElement, name: string): string {
  return String(new FormData(form).get(name) ?? "").trim();
}

/** Without `to` the action is taken out. */
function change(from: EventTarget, text: string, to?: string): void {
  const request = {
    ask: "change action",
    from: text,
    ...(to === undefined ? {} : { to }),
  } as const;
  send(from, { act: "change", request });
}

declare global {
  interface HTMLElementTagNameMap {
    "meeting-actions": MeetingActions;
  }
}
