import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { formatProblem } from "../../problem/format-problem.ts";
import type { Problem } from "../../problem/problem.ts";
import type { ComputedView } from "../cases-protocol.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import { FocusKept } from "./focus-kept.ts";
import { sectionLook } from "./section-look.ts";

/** Columns worked out in every row: those there are, and a form for another. */
@customElement("computed-columns")
export class ComputedColumns extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    sectionLook,
    css`
      form {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 12px;
        align-items: center;
        margin-top: 8px;
      }

      #working {
        flex: 1 1 260px;
      }

      code,
      #working {
        font-family: var(--fixed);
        font-size: 0.8125rem;
      }
    `,
  ];

  @property({ attribute: false }) host: Host | undefined;
  @property({ attribute: false }) computed: readonly ComputedView[] = [];
  @query("#name") private readonly name!: HTMLInputElement;
  @query("#working") private readonly working!: HTMLInputElement;
  @state() private problems: readonly Problem[] = [];

  constructor() {
    super();
    new FocusKept(this);
  }

  override render(): TemplateResult {
    return html`<p class="quiet">${labels.computedHelp}</p>
      ${this.computed.length > 0 ? html`<ul>${this.computed.map((each) => this.#column(each))}</ul>` : nothing}
      <form class="large-only" @submit=${(event: Event) => this.#add(event)}>
        <label for="name">${labels.computedName}</label>
        <input id="name" required autocomplete="off" spellcheck="false" size="14" />
        <label for="working">${labels.computedWorking}</label>
        <input
          id="working"
          required
          autocomplete="off"
          spellcheck="false"
          placeholder=${labels.computedExample}
        />
        <button>${labels.computedAdd}</button>
      </form>
      <div role="alert">${this.problems.map((problem) => html`<p>${formatProblem(problem)}</p>`)}</div>`;
  }

  #column({ name, working, isThere }: ComputedView): TemplateResult {
    return html`<li>
      <code>${name} = ${working}</code>
      ${isThere ? nothing : html`<span class="quiet">${labels.computedFaulty}</span>`}
      <button class="words large-only" @click=${() => this.#change(name, undefined)}>
        ${labels.computedRemove(name)}
      </button>
    </li>`;
  }

  async #add(event: Event): Promise<void> {
    event.preventDefault();
    if (!(await this.#change(this.name.value.trim(), this.working.value.trim()))) return;
    this.name.value = "";
    this.working.value = "";
    this.name.focus();
  }

  async #change(column: string, working: string | undefined): Promise<boolean> {
    const given = working === undefined ? {} : { working };
    const reply = await this.host?.ask({ ask: "compute column", column, ...given });
    this.problems = reply?.problems ?? [];
    return this.problems.length === 0;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "computed-columns": ComputedColumns;
  }
}
