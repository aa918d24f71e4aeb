import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { live } from "lit/directives/live.js";
import type { Setting } from "../../questions/setting.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import { dayOfText, textOfDay } from "../look/day-text.ts";
import type { DatePreset } from "../protocol.ts";

/** A setting of the sheet, to be changed by hand: choice, number, yes or no, dates. */
@customElement("cell-setting")
export class CellSetting extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    css`
      fieldset {
        border: 0;
        margin: 0;
        padding: 0;
        min-width: 0;
      }

      .choice {
        display: inline-flex;
        flex-wrap: wrap;
        border: 1px solid var(--edge);
        border-radius: 2px;
        background: var(--leaf);
        max-width: 100%;
      }

      .choice label {
        position: relative;
        padding: 2px 11px;
        line-height: 1.5;
        color: var(--ink);
        cursor: pointer;
        box-shadow: -1px 0 0 var(--hairline);
      }

      .choice label:first-of-type {
        box-shadow: none;
      }

      .choice input {
        position: absolute;
        inset: 0;
        margin: 0;
        min-height: 0;
        opacity: 0;
        cursor: pointer;
      }

      .choice label:has(:checked) {
        background: var(--ink);
        color: var(--paper);
        print-color-adjust: exact;
      }

      .choice label:has(:focus-visible) {
        outline: 2px solid var(--ink);
        outline-offset: 2px;
        z-index: 1;
      }

      .dates {
        display: flex;
        flex-wrap: wrap;
        gap: 6px 10px;
        align-items: center;
      }

      .presets,
      .number {
        display: flex;
        flex-wrap: wrap;
        gap: 4px;
        align-items: center;
      }

      .presets [aria-pressed="true"] {
        text-decoration: none;
        border-color: var(--edge);
        font-weight: 600;
      }

      .number button {
        padding: 0;
        min-width: 28px;
      }

      .number input {
        width: 9ch;
        appearance: textfield;
      }

      .number input::-webkit-inner-spin-button {
        display: none;
      }

      @media (pointer: coarse) {
        .number button,
        .presets button,
        .choice label {
          min-height: 36px;
        }

        .choice label {
          line-height: 2.25;
        }
      }

      @media print {
        .number button,
        .presets {
          display: none;
        }
      }

      .day {
        width: 12ch;
      }

      .day:invalid {
        text-decoration: underline wavy var(--ink);
      }

      @media (forced-colors: active) {
        .choice label:has(:checked) {
          forced-color-adjust: none;
          background: Highlight;
          color: HighlightText;
        }

        .presets [aria-pressed="true"] {
          border-color: Highlight;
        }
      }
    `,
  ];

  @property() cell = "";
  @property({ attribute: false }) setting!: Setting;
  /** Of dates: what can be chosen at one press. */
  @property({ attribute: false }) presets: readonly DatePreset[] | undefined;

  override render(): TemplateResult {
    const { setting } = this;
    switch (setting.type) {
      case "choice":
        return this.#choice(setting.options, setting.now, (option) => option);
      case "yes or no":
        return this.#choice([labels.yes, labels.no], setting.now ? 0 : 1, (option) => option === 0);
      case "number":
        return this.#number(setting);
      case "dates":
        return this.#dates(setting);
    }
  }

  #choice(
    options: readonly string[],
    now: number,
    change: (option: number) => SettingChange,
  ): TemplateResult {
    return html`<fieldset class="choice">
      <legend class="heard-only">${this.cell}</legend>
      ${options.map(
        (option, i) =>
          html`<label
            ><input
              type="radio"
              name="choice"
              .checked=${live(i === now)}
              @change=${() => this.#set(change(i))}
            />${option}</label
          >`,
      )}
    </fieldset>`;
  }

  #number(setting: Extract<Setting, { type: "number" }>): TemplateResult {
    const { least, most, step, now, unit } = setting;
    const button = (by: number, sign: string, title: string) => {
      const to = stepped(now + by * step, setting);
      const set = () => to !== now && this.#set(to);
      return html`<button aria-label=${title} aria-disabled=${to === now} @click=${set}
        >${sign}</button
      >`;
    };
    return html`<div class="number">
      ${button(-1, "−", labels.less(this.cell))}
      <input
        type="number"
        aria-label=${unit === undefined ? this.cell : `${this.cell}, ${unit}`}
        min=${least}
        max=${most}
        step=${step}
        .value=${String(now)}
        @change=${(event: Event) => this.#setNumber(event.target as HTMLInputElement)}
      />
      <span>${unit ?? ""}</span>
      ${button(1, "+", labels.more(this.cell))}
    </div>`;
  }

  #dates(setting: Extract<Setting, { type: "dates" }>): TemplateResult {
    const field = (end: "from" | "to", change: (day: number) => SettingChange) =>
      html`<label
        >${labels[end]}
        <input
          class="day"
          inputmode="numeric"
          pattern="\\d{4}-\\d{2}-\\d{2}"
          title=${labels.dayAsWritten}
          .value=${textOfDay(setting[end])}
          @change=${(event: Event) => {
            const input = event.target as HTMLInputElement;
            const day = dayOfText(input.value.trim());
            if (day !== undefined) this.#set(change(day));
            else input.reportValidity();
          }}
      /></label>`;
    return html`<fieldset class="dates">
      <legend class="heard-only">${this.cell}</legend>
      ${field("from", (day) => [day, setting.to])} ${field("to", (day) => [setting.from, day])}
      ${this.#presetButtons(setting)}
    </fieldset>`;
  }

  #presetButtons(now: Extract<Setting, { type: "dates" }>): TemplateResult | typeof nothing {
    if (this.presets === undefined || this.presets.length === 0) return nothing;
    return html`<div class="presets" role="group" aria-label=${labels.presets}>
      ${this.presets.map(
        ({ name, from, to }) => html`<button
          class="words"
          title=${labels.presetTitle(textOfDay(from), textOfDay(to))}
          aria-pressed=${from === now.from && to === now.to}
          @click=${() => this.#set([from, to])}
        >
          ${labels.preset[name]}
        </button>`,
      )}
    </div>`;
  }

  #setNumber(input: HTMLInputElement): void {
    if (input.value !== "" && input.checkValidity()) this.#set(Number(input.value));
    else input.reportValidity();
  }

  #set(to: SettingChange): void {
    send(this, { act: "change", request: { ask: "set setting", cell: this.cell, to } });
  }
}

/** A number of steps from the least, within the ends; rounded as a step is written. */
function stepped(number: number, setting: Extract<Setting, { type: "number" }>): number {
  const within = Math.min(Math.max(number, setting.least), setting.most);
  return Number(within.toPrecision(12));
}

declare global {
  interface HTMLElementTagNameMap {
    "cell-setting": CellSetting;
  }
}
