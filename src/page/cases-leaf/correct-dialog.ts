import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { fieldNamed } from "../../cases/dictionary.ts";
import { formatProblem } from "../../problem/format-problem.ts";
import type { Problem } from "../../problem/problem.ts";
import { dialogLook } from "../book/dialog-look.ts";
import type { ValueAt, ValueCorrected } from "../cases-protocol.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import { sectionLook } from "./section-look.ts";

/** A value to be corrected, with the text that the file has for it. */
interface Asked extends ValueAt {
  readonly from: string | null;
  readonly to?: string;
}

/** Pasted values that are shown one by one. */
const mostShown = 100;

/** Asks what one value is to be read as, or shows those that were pasted, and asks why. */
@customElement("correct-dialog")
export class CorrectDialog extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    dialogLook,
    sectionLook,
    css`
      .fields {
        display: grid;
        grid-template-columns: 4.75rem minmax(0, 1fr);
        gap: 8px 16px;
        align-items: baseline;
      }

      .fields small {
        grid-column: 2;
        margin-top: -6px;
        color: var(--ink-soft);
        font-size: 0.8125rem;
      }

      pre {
        margin: 0;
        font: 0.8125rem / 1.4 var(--fixed);
        white-space: pre-wrap;
        border-left: 4px solid var(--ink);
        padding-left: 10px;
      }

      .scroll {
        max-height: 240px;
      }
    `,
  ];

  @property({ attribute: false }) host: Host | undefined;
  @query("dialog") private readonly dialog!: HTMLDialogElement;
  @query("#to") private readonly to!: HTMLInputElement | null;
  @query("#why") private readonly why!: HTMLInputElement;
  @state() private asked: readonly Asked[] = [];
  @state() private problems: readonly Problem[] = [];

  /** Opens for these values: one to be written here, or several with their texts. */
  async show(values: readonly (ValueAt | ValueCorrected)[]): Promise<void> {
    if (this.host === undefined || values.length === 0) return;
    const { texts } = await this.host.ask({ ask: "written values", cells: values });
    this.asked = values.map((value, i) => ({ ...value, from: texts[i] ?? null }));
    this.problems = [];
    await this.updateComplete;
    this.dialog.showModal();
    (this.to ?? this.why)?.focus();
  }

  override render(): TemplateResult {
    const { asked } = this;
    return html`<dialog
      aria-labelledby="title"
      @close=${() => this.#closed()}
    >
      ${asked.length === 0 ? nothing : this.#form(asked)}
    </dialog>`;
  }

  #form(asked: readonly Asked[]): TemplateResult {
    const [only] = asked;
    const isOne = asked.length === 1 && only?.to === undefined;
    const changing = this.#changing();
    const title = isOne ? labels.correctTitle : labels.correctMany(changing.length);
    const canCorrect = isOne ? only?.from !== null : changing.length > 0;
    return html`<form @submit=${(event: Event) => this.#correct(event)}>
      <h2 id="title">${title}</h2>
      ${isOne && only ? oneValue(only) : this.#several(changing, asked.length)}
      <div class="fields">
        <label for="why">${labels.correctWhy}</label>
        <input id="why" required autocomplete="off" aria-describedby="why-help" />
        <small id="why-help">${labels.correctWhyHelp}</small>
      </div>
      <p class="quiet">${labels.fileStays}</p>
      <div role="alert">
        ${this.problems.map((problem) => html`<pre>${formatProblem(problem)}</pre>`)}
      </div>
      <div class="foot">
        <button class="first" ?disabled=${!canCorrect}>${labels.correctDo}</button>
        <button type="button" @click=${() => this.dialog.close()}>${labels.cancel}</button>
      </div>
    </form>`;
  }

  #several(changing: readonly Asked[], count: number): TemplateResult {
    const shown = changing.slice(0, mostShown);
    const same = count - changing.length;
    return html`<div class="scroll" tabindex="0" role="region" aria-labelledby="title">
        <table>
          <thead>
            <tr>
              ${[labels.line, labels.field, labels.correctFrom, labels.correctTo].map(
                (text) => html`<th scope="col">${text}</th>`,
              )}
            </tr>
          </thead>
          <tbody>
            ${shown.map(
              ({ line, field, from, to }) =>
                html`<tr>
                  <td>${line}</td>
                  <td>${field}</td>
                  <td>${from || labels.correctNothing}</td>
                  <td>${to || labels.correctNothing}</td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      ${shown.length < changing.length ? html`<p>${labels.firstOf(shown.length, changing.length)}</p>` : nothing}
      ${same > 0 ? html`<p class="quiet">${labels.correctUnchanged(same)}</p>` : nothing}`;
  }

  /** Of several, those that are not so already. */
  #changing(): readonly Asked[] {
    return this.asked.filter(({ from, to }) => from !== null && from !== to);
  }

  async #correct(event: Event): Promise<void> {
    event.preventDefault();
    const written = this.to;
    const values =
      written === null
        ? this.#changing().map(({ from: _, to = "", ...at }) => ({ ...at, to }))
        : this.asked.map(({ from: _, ...at }) => ({ ...at, to: written.value }));
    const reply = await this.host?.ask({ ask: "correct", values, why: this.why.value });
    if (reply?.done) {
      this.dialog.close();
      this.#closed();
    } else this.problems = reply?.problems ?? [];
  }

  /** Told at once, and not by a later event alone: a key may come between. */
  #closed(): void {
    this.asked = [];
    this.dispatchEvent(new CustomEvent("closed"));
  }
}

function oneValue(asked: Asked): TemplateResult {
  const { file, line, field, from } = asked;
  const known = fieldNamed(field);
  const choices =
    known?.codes?.map(({ code }) => code) ?? (known?.kind === "truth" ? ["yes", "no"] : []);
  return html`<p><strong>${known?.label ?? field}</strong>, ${labels.correctWhere(line, file)}</p>
    ${
      from === null
        ? html`<p>${labels.correctWithout}</p>`
        : html`<div class="fields">
            <span>${labels.correctFrom}</span>
            <span>${from === "" ? labels.correctNothing : html`“${from}”`}</span>
            <label for="to">${labels.correctTo}</label>
            <input id="to" list="choices" autocomplete="off" .value=${from} aria-describedby="to-help" />
            <small id="to-help">${labels.correctToHelp}</small>
            <datalist id="choices">
              ${choices.map((code) => html`<option value=${code}></option>`)}
            </datalist>
          </div>`
    }`;
}

declare global {
  interface HTMLElementTagNameMap {
    "correct-dialog": CorrectDialog;
  }
}
