import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { formatWorking } from "../../formula/format.ts";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, fields } from "../look/base.ts";
import type { CasesView, CellView, WordView } from "../protocol.ts";
import { fieldChoices } from "./field-choices.ts";
import { type FormField, formOfWorking, type WorkingForm, withField } from "./working-form.ts";

/** The working as a question to fill in: ask, eyes, by, within. Each field rewrites the working. */
@customElement("question-form")
export class QuestionForm extends LitElement {
  static override styles = [
    base,
    fields,
    css`
      .form {
        display: grid;
        grid-template-columns: minmax(72px, max-content) minmax(0, 300px);
        gap: 6px 16px;
        align-items: center;
      }

      input,
      select {
        width: 100%;
      }

      input::placeholder {
        color: var(--margin-note);
        opacity: 1;
      }

      .meaning {
        color: var(--ink-soft);
        margin-bottom: 8px;
      }
    `,
  ];

  @property({ attribute: false }) view!: CellView;
  @property({ attribute: false }) words: readonly WordView[] = [];
  @property({ attribute: false }) cells: ReadonlyMap<string, CellView> = new Map();
  @property({ attribute: false }) cases: CasesView | undefined;

  override render(): TemplateResult {
    const form = formOfWorking(this.view.working, this.words);
    if (form === undefined) return html`<p class="meaning">${labels.notAQuestion}</p>`;
    return html`<div class="form">
      <label for="word">${labels.ask}</label>
      ${this.#wordChoice(form)}
      ${form.fields.map((field) => this.#field(form, field))}
    </div>`;
  }

  /** Another word of the same worth may ask of the same cells. */
  #wordChoice(form: WorkingForm): TemplateResult {
    const alike = this.words.filter(
      ({ answers, asks }) =>
        answers === form.word.answers && (asks === undefined) === (form.word.asks === undefined),
    );
    return html`<select id="word" title=${form.word.meaning} @change=${this.#wordChosen(form)}>
      ${alike.map(
        (word) =>
          html`<option value=${word.name} ?selected=${word.name === form.word.name}>
            ${word.asks === undefined ? word.name : `${word.asks} (${word.name})`}
          </option>`,
      )}
    </select>`;
  }

  #field(form: WorkingForm, field: FormField): TemplateResult {
    const { name, meaning, whenLeftOut } = field.parameter;
    const choices = fieldChoices(field.parameter, this.cells.values(), this.cases);
    return html`<label for=${name}>${labels.parameter(name)}</label>
      <input
        id=${name}
        list=${choices.length > 0 ? `${name}-choices` : nothing}
        autocomplete="off"
        spellcheck="false"
        title=${meaning}
        placeholder=${whenLeftOut === undefined ? "" : labels.whenLeftOut(whenLeftOut)}
        .value=${field.text}
        @change=${(event: Event) => this.#rewrite(form, field, event.target as HTMLInputElement)}
      />
      ${
        choices.length > 0
          ? html`<datalist id="${name}-choices">
            ${choices.map((choice) => html`<option value=${choice}></option>`)}
          </datalist>`
          : nothing
      }`;
  }

  #wordChosen(form: WorkingForm): (event: Event) => void {
    return (event) => {
      const { start, end } = form.call.wordSpan;
      const { working } = this.view;
      const name = (event.target as HTMLSelectElement).value;
      this.#set(working.slice(0, start) + name + working.slice(end));
    };
  }

  #rewrite(form: WorkingForm, field: FormField, input: HTMLInputElement): void {
    this.#set(withField(form, field, input.value));
  }

  #set(text: string): void {
    const working = formatWorking(text);
    send(this, { act: "change", request: { ask: "set working", cell: this.view.name, working } });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "question-form": QuestionForm;
  }
}
