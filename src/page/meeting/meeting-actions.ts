import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import "../sheet/prose-block.ts";
import { maskOf, unmasked } from "./hide-people.ts";
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
        font-size: clamp(1.25rem, 1.4vw, 2rem);
      }

      .page {
        max-width: 1180px;
        margin: 0 auto;
        padding: clamp(16px, 4vh, 48px) 28px;
        display: grid;
        gap: clamp(12px, 2.4vh, 26px);
      }

      h2 {
        font: 400 clamp(1.375rem, 2.6vw, 2.375rem) / 1.3 var(--serif);
      }

      prose-block {
        --prose-size: clamp(1.25rem, 1.5vw, 2.125rem);
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

      @media (max-width: 43.75rem), (max-height: 32.5rem) {
        :host {
          font-size: 1rem;
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
  /** Codes of people that the room is not to see: it reads and writes numbers in their place. */
  @property({ attribute: false }) people: readonly string[] = [];
  /** The one that is being rewritten. */
  @state() private changing: string | undefined;
  /** Where the keyboard goes once the field is gone or there: the place of the action in the list. */
  #goesTo: number | undefined;

  override render(): TemplateResult {
    return html`<article class="page">
      <h2>${labels.actionsPage}</h2>
      ${
        this.actions.length === 0
          ? html`<p>${labels.noActions}</p>`
          : actionItems(this.actions).map((item, at) => this.#item(item, at))
      }
      <form @submit=${(event: SubmitEvent) => this.#agree(event)}>
        ${field("what", labels.actionName)} ${field("role", labels.actionBy)}
        ${field("until", labels.actionUntil, "date")}
        <button class="first">${labels.agree}</button>
      </form>
      <p>${labels.actionsKept}</p>
    </article>`;
  }

  /** Into the field that came, or to the button that it came from. */
  protected override updated(): void {
    if (this.#goesTo === undefined) return;
    const item = this.renderRoot.querySelectorAll(".item")[this.#goesTo];
    this.#goesTo = undefined;
    item?.querySelector<HTMLElement>("input, button")?.focus();
  }

  #item({ text, isItem }: ActionItem, at: number): TemplateResult {
    const shown = maskOf(this.people)(text);
    if (!isItem) return html`<prose-block class="item" .text=${shown}></prose-block>`;
    if (text === this.changing) return this.#rewriting(text, at);
    return html`<div class="action item">
      <prose-block .text=${`- ${shown}`}></prose-block>
      <button
        class="words"
        aria-label=${labels.changeActionName(shown)}
        @click=${() => this.#change(text, at)}
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

  #change(text: string | undefined, at: number): void {
    this.changing = text;
    this.#goesTo = at;
  }

  #rewriting(text: string, at: number): TemplateResult {
    return html`<form class="item" @submit=${(event: SubmitEvent) => this.#rewrite(event, text, at)}>
      <label>${labels.actionAs}<input name="what" autocomplete="off" .value=${maskOf(this.people)(text)} /></label>
      <button class="first">${labels.keepChange}</button>
      <button type="button" @click=${() => this.#change(undefined, at)}>
        ${labels.leaveAction}
      </button>
    </form>`;
  }

  #agree(event: SubmitEvent): void {
    const form = submitted(event);
    const what = entry(form, "what");
    if (what === "") return;
    const [role, until] = [entry(form, "role"), entry(form, "until")];
    const action = unmasked(labels.actionText({ what, role, until }), "", this.people);
    send(this, { act: "change", request: { ask: "agree", action } });
    form.reset();
  }

  #rewrite(event: SubmitEvent, text: string, at: number): void {
    const to = unmasked(entry(submitted(event), "what"), text, this.people);
    if (to === "") return;
    if (to !== text) change(this, text, to);
    this.#change(undefined, at);
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
