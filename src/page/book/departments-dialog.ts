import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { send } from "../act.ts";
import type { DepartmentsView, DepartmentView } from "../departments-protocol.ts";
import { type BookState, closedBook } from "../host/book-state.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import { dialogLook } from "./dialog-look.ts";
import "./book-notices.ts";
import "./hand-over.ts";

/** The departments whose aggregates are open, and handing over one's own. */
@customElement("departments-dialog")
export class DepartmentsDialog extends LitElement {
  static override styles = [
    base,
    buttons,
    dialogLook,
    css`
      .content {
        display: grid;
        gap: 12px;
        padding: 20px 24px;
      }

      h3 {
        font: 600 1.0625rem / 1.3 var(--serif);
      }

      ul {
        padding: 0;
        list-style: none;
        border-top: 1px solid var(--hairline);
      }

      li {
        display: flex;
        gap: 16px;
        align-items: start;
        padding: 7px 0;
        border-bottom: 1px solid var(--hairline);
      }

      li div {
        flex: 1;
        min-width: 0;
        overflow-wrap: anywhere;
      }

      li span {
        display: block;
        color: var(--ink-soft);
        font-size: 0.84375rem;
      }

      hand-over {
        border-top: 1px solid var(--hairline);
        padding-top: 12px;
      }

      book-notices {
        margin-inline: -24px;
      }
    `,
  ];

  @property({ attribute: false }) book: BookState = closedBook;
  @property({ attribute: false }) host: Host | undefined;
  @query("dialog") private readonly dialog!: HTMLDialogElement;
  @query("input") private readonly files!: HTMLInputElement;
  @query(".first") private readonly adder!: HTMLButtonElement;
  @state() private open = false;
  /** The last notice before the dialog was opened: later ones are about what was done in it. */
  #before = 0;

  show(): void {
    this.open = true;
    this.#before = this.book.notices.at(-1)?.id ?? 0;
    this.dialog.showModal();
  }

  override render(): TemplateResult {
    return html`<dialog
        aria-labelledby="title"
        @close=${() => {
          this.open = false;
        }}
      >
        ${this.open ? this.#content() : nothing}
      </dialog>
      <input
        type="file"
        hidden
        multiple
        accept=".json,application/json"
        @change=${() => this.#chosen()}
      />`;
  }

  #content(): TemplateResult {
    const { departments, notices } = this.book;
    const since = notices.filter(({ id }) => id > this.#before);
    return html`<div class="content">
      <h2 id="title">${labels.departmentsName}</h2>
      <p class="quiet">${labels.departmentsMeaning}</p>
      <h3>${labels.openDepartments}</h3>
      ${departments === undefined ? html`<p>${labels.noneOpen}</p>` : this.#list(departments)}
      <book-notices .notices=${since}></book-notices>
      <div class="foot">
        <button class="first" @click=${() => this.files.click()}>${labels.openAggregates}</button>
        <button @click=${() => this.dialog.close()}>${labels.close}</button>
      </div>
      <hand-over .book=${this.book} .host=${this.host}></hand-over>
    </div>`;
  }

  #list({ invented, definition, departments }: DepartmentsView): TemplateResult {
    return html`${invented ? html`<p class="quiet">${labels.inventedDepartments}</p>` : nothing}
      <p>${labels.agreed(definition)}</p>
      <ul aria-label=${labels.openDepartmentsList}>
        ${departments.map((department) => this.#department(department))}
      </ul>`;
  }

  #department(department: DepartmentView): TemplateResult {
    const { unit, period = labels.noPeriod, eyes, file, by } = department;
    return html`<li>
      <div>
        <strong>${unit}</strong>, ${period}, ${labels.eyesTold(eyes)}
        <span>${labels.fromFileNamed(file)}, ${labels.groupedBy(by)}</span>
        <span>${labels.suppressed(department)}</span>
      </div>
      <button aria-label=${labels.removeThis(unit)} @click=${() => this.#remove(unit)}>
        ${labels.removeDepartment}
      </button>
    </li>`;
  }

  /** The keyboard goes where another can be opened: what was removed had it. */
  #remove(unit: string): void {
    send(this, { act: "change", request: { ask: "remove department", unit } });
    this.adder.focus();
  }

  #chosen(): void {
    const files = [...(this.files.files ?? [])];
    this.files.value = "";
    if (files.length > 0) send(this, { act: "open departments", files });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "departments-dialog": DepartmentsDialog;
  }
}
