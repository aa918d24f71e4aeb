import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { live } from "lit/directives/live.js";
import type { Setting } from "../../questions/setting.ts";
import type { SettingChange } from "../../questions/settings/with-setting.ts";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, fields } from "../look/base.ts";
import { dayOfText, textOfDay } from "../look/day-text.ts";

/** A setting of the sheet, to be changed by hand: choice, number, yes or no, dates. */
@customElement("cell-setting")
export class CellSetting extends LitElement {
  static override styles = [
    base,
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
        line-height: 21px;
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

      .day {
        width: 12ch;
      }

      .day:invalid {
        text-decoration: underline wavy var(--ink);
      }

      @media (forced-colors: active) {
        .choice label:has(:checked) {
          outline: 2px solid;
        }
      }
    `,
  ];

  @property() cell = "";
  @property({ attribute: false }) setting!: Setting;

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
    return html`<input
        type="number"
        aria-label=${this.cell}
        min=${setting.least}
        max=${setting.most}
        step=${setting.step}
        .value=${String(setting.now)}
        @change=${(event: Event) => this.#setNumber(event.target as HTMLInputElement)}
      />
      ${setting.unit ?? ""}`;
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
    </fieldset>`;
  }

  #setNumber(input: HTMLInputElement): void {
    if (input.value !== "" && input.checkValidity()) this.#set(Number(input.value));
    else input.reportValidity();
  }

  #set(to: SettingChange): void {
    send(this, { act: "change", request: { ask: "set setting", cell: this.cell, to } });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "cell-setting": CellSetting;
  }
}
