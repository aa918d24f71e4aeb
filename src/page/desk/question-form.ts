import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import { labels } from "../labels.ts";
import { base, fields } from "../look/base.ts";
import type { CasesView, CellView, WordView } from "../protocol.ts";
import { fieldChoices } from "./field-choices.ts";
import {
  alsoWritten,
  type FormField,
  formOfWorking,
  type WorkingForm,
  withField,
} from "./working-form.ts";

/** What the form makes of the working: with every keystroke, and once the field is left. */
export interface Drafting {
  readonly text: string;
  readonly finished: boolean;
}

/** The working as a question to fill in: ask, eyes, by, within. Each field rewrites the working. */
@customElement("question-form")
export class QuestionForm extends LitElement {
  static override styles = [
    base,
    fields,
    css`
      .form {
        display: grid;
        grid-template-columns: minmax(4.5rem, max-content) minmax(0, 18.75rem);
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

      .meaning,
      .also {
        color: var(--ink-soft);
        margin-bottom: 8px;
      }

      .also {
        margin-top: 8px;
      }

      code {
        font: 0.8125rem var(--fixed);
        overflow-wrap: anywhere;
      }
    `,
  ];

  /** The working as it is being written. */
  @property() working = "";
  @property({ attribute: false }) words: readonly WordView[] = [];
  @property({ attribute: false }) cells: ReadonlyMap<string, CellView> = new Map();
  @property({ attribute: false }) cases: CasesView | undefined;
  @query(".form") private readonly ground!: HTMLElement | null;
  /** The form as it was when the reader began to write in a field of it. */
  #begun: { readonly form: WorkingForm; readonly field: FormField } | undefined;

  override render(): TemplateResult {
    const form = this.#begun?.form ?? formOfWorking(this.working, this.words);
    if (form === undefined) return html`<p class="meaning">${labels.notAQuestion}</p>`;
    return html`<div class="form">
        <label for="word">${labels.ask}</label>
        ${this.#wordChoice(form)}
        ${form.fields.map((field) => this.#field(form, field))}
      </div>
      ${this.#also(form)}`;
  }

  /** What is written elsewhere shows in the fields, even over what was typed and let go. */
  protected override updated(changed: PropertyValues<this>): void {
    if (this.#begun !== undefined || !changed.has("working")) return;
    const form = formOfWorking(this.working, this.words);
    for (const { parameter, text } of form?.fields ?? []) {
      const input = this.ground?.querySelector<HTMLInputElement>(`#${CSS.escape(parameter.name)}`);
      if (input && input.value !== text) input.value = text;
    }
  }

  #also(form: WorkingForm): TemplateResult | typeof nothing {
    const written = alsoWritten(form);
    if (written.length === 0) return nothing;
    return html`<p class="also">
      ${labels.alsoWritten} ${written.map((text) => html`<code>${text}</code> `)}
    </p>`;
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
        @input=${(event: Event) => this.#typed(form, field, event.target as HTMLInputElement)}
        @change=${(event: Event) => this.#left(event.target as HTMLInputElement)}
        @keydown=${(event: KeyboardEvent) => this.#key(event)}
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
      const name = (event.target as HTMLSelectElement).value;
      const { working } = form;
      this.#tell({ text: working.slice(0, start) + name + working.slice(end), finished: true });
    };
  }

  #typed(form: WorkingForm, field: FormField, input: HTMLInputElement): void {
    this.#begun ??= { form, field };
    const { form: from, field: of } = this.#begun;
    this.#tell({ text: withField(from, of, input.value), finished: false });
  }

  #left(input: HTMLInputElement): void {
    const begun = this.#begun;
    this.#begun = undefined;
    if (begun === undefined) return;
    this.#tell({ text: withField(begun.form, begun.field, input.value), finished: true });
  }

  /** Escape takes back what was typed in the field, or else leaves the desk. */
  #key(event: KeyboardEvent): void {
    const begun = this.#begun;
    if (event.key !== "Escape" || begun === undefined) return;
    event.preventDefault();
    this.#begun = undefined;
    (event.target as HTMLInputElement).value = begun.field.text;
    this.#tell({ text: begun.form.working, finished: false });
  }

  #tell(drafting: Drafting): void {
    this.dispatchEvent(new CustomEvent<Drafting>("draft", { detail: drafting }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "question-form": QuestionForm;
  }
}
