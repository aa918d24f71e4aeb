import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { FocusKept } from "../cases-leaf/focus-kept.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import type { CasesKeeping, KeepingState } from "./cases-keeping.ts";

const leastCharacters = 10;

/** Keeping the cases on this device: off until asked for, what it does, and erasing all of it. */
@customElement("keep-cases")
export class KeepCases extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    css`
      form,
      .foot {
        display: flex;
        flex-wrap: wrap;
        gap: 6px 12px;
        align-items: center;
        margin-top: 8px;
      }

      p + p,
      small {
        color: var(--ink-soft);
        font-size: 0.8125rem;
      }

      small {
        flex-basis: 100%;
      }

      .caution {
        color: var(--caution);
      }
    `,
  ];

  @property({ attribute: false }) keeping: CasesKeeping | undefined;
  /** How it stands: an element cannot see inside what it is given. */
  @property() standing: KeepingState = "off";
  @property({ type: Boolean }) invented = false;
  @property({ type: Boolean }) hasKey = false;
  /** Nothing else is to be done here: the passphrase gets the keyboard. */
  @property({ type: Boolean }) asks = false;
  @query("#passphrase") private readonly passphrase!: HTMLInputElement;
  @query("#secret") private readonly secret!: HTMLInputElement | null;
  @state() private said = "";

  constructor() {
    super();
    new FocusKept(this);
  }

  override render(): TemplateResult {
    return html`${this.#standing()}
      <p role="status">${this.said}</p>`;
  }

  protected override firstUpdated(): void {
    if (this.asks) this.passphrase.focus();
  }

  #standing(): TemplateResult {
    switch (this.standing) {
      case "off":
        return this.#off();
      case "locked":
        return this.#locked();
      case "on":
        return html`<p>${labels.keepingOn}</p>
          <p>${this.keeping?.isSealed ? labels.keepingSealed : labels.keepingInOpen}</p>
          <div class="foot">${this.#erase()}</div>`;
      case "conflict":
        return html`<p class="caution" role="alert">${labels.keepingConflict}</p>
          <div class="foot">
            <button @click=${() => this.keeping?.keepInstead()}>${labels.keepTheseInstead}</button>
            ${this.#erase()}
          </div>`;
      case "unreadable":
        return html`<p class="caution" role="alert">${labels.keptUnreadable}</p>
          <div class="foot">${this.#erase()}</div>`;
      case "refused":
        return html`<p class="caution" role="alert">${labels.keepingRefused}</p>`;
    }
  }

  #off(): TemplateResult {
    if (this.invented) return html`<p>${labels.keepingOff}</p><p>${labels.keepingInvented}</p>`;
    return html`<p>${labels.keepingOff}</p>
      <p>${labels.keepingWhat}</p>
      <form @submit=${(event: Event) => this.#keep(event)}>
        <label for="passphrase">${labels.passphrase}</label>
        <input
          id="passphrase"
          type="password"
          autocomplete="new-password"
          minlength=${leastCharacters}
          aria-describedby="help"
        />
        ${
          this.hasKey
            ? html`<label><input id="secret" type="checkbox" /> ${labels.keepSecret}</label>`
            : nothing
        }
        <button>${labels.keepThem}</button>
        <small id="help">${labels.passphraseHelp(leastCharacters)}</small>
      </form>`;
  }

  #locked(): TemplateResult {
    return html`<p>${labels.keepingLocked}</p>
      <form @submit=${(event: Event) => this.#unlock(event)}>
        <label for="passphrase">${labels.passphrase}</label>
        <input id="passphrase" type="password" autocomplete="current-password" required />
        <button>${labels.openKept}</button>
        ${this.#erase()}
      </form>`;
  }

  #erase(): TemplateResult {
    return html`<button type="button" @click=${() => this.keeping?.erase()}>
      ${labels.eraseKept}
    </button>`;
  }

  async #keep(event: Event): Promise<void> {
    event.preventDefault();
    const passphrase = this.passphrase.value;
    const withSecret = this.secret?.checked ?? false;
    this.passphrase.value = "";
    if (passphrase !== "") this.said = labels.passphraseWorking;
    await this.keeping?.keep({ withSecret, ...(passphrase !== "" && { passphrase }) });
    this.said = "";
  }

  async #unlock(event: Event): Promise<void> {
    event.preventDefault();
    const passphrase = this.passphrase.value;
    this.said = labels.passphraseWorking;
    const opened = await this.keeping?.unlock(passphrase);
    this.said = opened ? "" : labels.passphraseWrong;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "keep-cases": KeepCases;
  }
}
