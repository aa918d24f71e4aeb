import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property, queryAll } from "lit/decorators.js";
import type { TitlePage } from "../../notebook/set-front-matter.ts";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import type { NotebookView } from "../protocol.ts";

const names = ["title", "unit", "period", "madeBy", "reader"] as const;

/** What stands on the title page, to be changed; tells its owner by `settled` that it is done. */
@customElement("title-page-form")
export class TitlePageForm extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    css`
      form {
        display: grid;
        grid-template-columns: max-content min(46ch, 60vw);
        gap: 4px 10px;
        align-items: center;
      }

      input[name="title"] {
        font: 600 1.125rem / 1.2 var(--serif);
      }

      div {
        grid-column: 2;
      }
    `,
  ];

  @property({ attribute: false }) notebook!: NotebookView;
  @queryAll("input") private readonly inputs!: NodeListOf<HTMLInputElement>;

  /** Going away, the form loses the keyboard, which is no wish to keep anything. */
  #isSettled = false;

  override render(): TemplateResult {
    return html`<form
      @submit=${(event: Event) => this.#keep(event)}
      @keydown=${(event: KeyboardEvent) => event.key === "Escape" && this.#settle()}
      @focusout=${(event: FocusEvent) => this.#left(event)}
    >
      ${names.map((name) => this.#field(name))}
      <div>
        <button>${labels.keepTitlePage}</button>
        <button type="button" @click=${() => this.#settle()}>${labels.cancel}</button>
      </div>
    </form>`;
  }

  override async firstUpdated(): Promise<void> {
    this.inputs[0]?.select();
  }

  #field(name: (typeof names)[number]): TemplateResult {
    const label = labels.titlePage[name];
    return html`<label for=${name}>${label}</label>
      <input
        id=${name}
        name=${name}
        aria-label=${name === "title" ? labels.titleName : label}
        .value=${this.notebook[name] ?? ""}
      />`;
  }

  /** Going on to something else keeps what was written, as Enter does. */
  #left(event: FocusEvent): void {
    const to = event.relatedTarget;
    if (to instanceof Node && this.renderRoot.contains(to)) return;
    this.#keep(event);
  }

  #keep(event: Event): void {
    event.preventDefault();
    if (this.#isSettled) return;
    const page = Object.fromEntries(
      [...this.inputs].map(({ name, value }) => [name, value.trim()]),
    ) as Record<(typeof names)[number], string>;
    const changed: TitlePage = Object.fromEntries(
      names
        .filter((name) => page[name] !== (this.notebook[name] ?? ""))
        .filter((name) => name !== "title" || page.title !== "")
        .map((name) => [name, page[name]]),
    );
    this.#settle();
    if (Object.keys(changed).length === 0) return;
    send(this, { act: "change", request: { ask: "set title page", page: changed } });
  }

  #settle(): void {
    this.#isSettled = true;
    this.dispatchEvent(new CustomEvent("settled"));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "title-page-form": TitlePageForm;
  }
}
