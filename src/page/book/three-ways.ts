import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, query } from "lit/decorators.js";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";

/** The first minute: three ways on from the demo. */
@customElement("three-ways")
export class ThreeWays extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      section {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 15rem), 1fr));
        gap: 0 24px;
        padding: 14px 28px 12px;
        border-bottom: 1px solid var(--hairline);
        align-items: start;
      }

      .way {
        display: grid;
        gap: 2px;
        text-align: left;
        border: 0;
        border-top: 2px solid var(--edge-strong);
        border-radius: 0;
        padding: 8px 4px;
        align-content: start;
      }

      .way:hover {
        border-top-color: var(--ink);
      }

      strong {
        font: 600 1.0625rem / 1.3 var(--serif);
      }

      span {
        color: var(--ink-soft);
        font-size: 0.84375rem;
      }

      .away {
        justify-self: start;
      }

      @media (max-width: 43.75rem) {
        section {
          padding-inline: 16px;
        }
      }

      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  @query("input") private readonly file!: HTMLInputElement;

  override render(): TemplateResult {
    return html`<section aria-label=${labels.waysOn}>
      ${this.#way(labels.ownCases, labels.ownCasesMeaning, () => this.file.click())}
      ${this.#way(labels.aQuestion, labels.aQuestionMeaning, () => {
        send(this, { act: "ask another" });
      })}
      ${this.#way(labels.lookAround, labels.lookAroundMeaning, () => {
        send(this, { act: "look around" });
      })}
      <button class="words away" @click=${() => send(this, { act: "put ways away" })}>
        ${labels.waysOnPutAway}
      </button>
      <input type="file" hidden accept=".csv,.tsv,.txt,.xlsx,text/csv" @change=${() => this.#chosen()} />
    </section>`;
  }

  #way(title: string, meaning: string, go: () => void): TemplateResult {
    return html`<button class="way" @click=${go}>
      <strong>${title}</strong><span>${meaning}</span>
    </button>`;
  }

  #chosen(): void {
    const file = this.file.files?.[0];
    this.file.value = "";
    if (file !== undefined) send(this, { act: "open file", file });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "three-ways": ThreeWays;
  }
}
