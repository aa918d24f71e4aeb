import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { usualSmallestCount } from "../../notebook/smallest-count.ts";
import type { ReportedCell, ReportInput } from "../../report/report-input.ts";
import { type BookState, closedBook } from "../host/book-state.ts";
import type { Host } from "../host/host.ts";
import { isPooled } from "../host/open-departments.ts";
import { labels } from "../labels.ts";
import { base, buttons, fields } from "../look/base.ts";
import { dialogLook } from "./dialog-look.ts";
import { download } from "./download-text.ts";
import { type ReportForm, reportFile, reportFileName, reportForms } from "./report-file.ts";

/** Saves the report as a file of the reader's choice, for the department or to be shared. */
@customElement("save-report")
export class SaveReport extends LitElement {
  static override styles = [
    base,
    buttons,
    fields,
    dialogLook,
    css`
      fieldset {
        border: 0;
        padding: 0;
        margin: 0;
        display: grid;
        gap: 6px;
      }

      legend {
        padding: 0 0 4px;
        color: var(--ink-soft);
      }

      fieldset > label {
        display: grid;
        grid-template-columns: 24px minmax(0, 1fr);
        align-items: start;
        min-height: 24px;
        color: var(--ink);
      }

      input[type="radio"] {
        accent-color: var(--ink);
        width: 16px;
        height: 16px;
        min-height: 0;
        margin: 3px 0 0;
      }

      input[type="number"] {
        width: 8ch;
      }

      label span {
        color: var(--ink-soft);
      }

      .count {
        margin-left: 24px;
      }

      .count label {
        margin-right: 8px;
      }

      /* What is withheld may be long: the buttons stay in sight. */
      .foot {
        position: sticky;
        bottom: 0;
        margin-inline: -24px;
        padding: 12px 24px 20px;
        background: var(--leaf);
      }

      form {
        padding-bottom: 0;
      }

      .withheld {
        margin: 0;
        padding-left: 18px;
        font-size: 0.84375rem;
      }
    `,
  ];

  @property({ attribute: false }) book: BookState = closedBook;
  @property({ attribute: false }) host: Host | undefined;
  @query("dialog") private readonly dialog!: HTMLDialogElement;
  @state() private open = false;
  @state() private form: ReportForm = "page";
  @state() private shares = false;
  @state() private smallestCount = usualSmallestCount;
  /** The report to share with that smallest count, once it is worked out. */
  @state() private shared: ReportInput | undefined;
  @state() private said = "";
  @state() private isMaking = false;
  #turn = 0;

  show(): void {
    this.open = true;
    this.form = "page";
    this.shares = false;
    this.shared = undefined;
    this.smallestCount = this.book.notebook?.smallestCount ?? usualSmallestCount;
    this.said = "";
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
    </dialog>`;
  }

  #content(): TemplateResult {
    return html`<form method="dialog">
      <h2 id="title">${labels.saveReportName}</h2>
      <fieldset>
        <legend>${labels.reportAs}</legend>
        ${reportForms.map((form) => this.#formChoice(form))}
      </fieldset>
      ${isPooled(this.book.notebook) ? html`<p>${labels.pooledReport}</p>` : this.#readers()}
      <div class="foot">
        <button
          type="button"
          class="first"
          aria-disabled=${this.isMaking}
          @click=${() => this.#save()}
        >
          ${labels.saveIt}
        </button>
        <button>${labels.cancel}</button>
        <span role="status">${this.said}</span>
      </div>
    </form>`;
  }

  #readers(): TemplateResult {
    return html`<fieldset>
      <legend>${labels.reportFor}</legend>
      ${this.#readerChoice(false)} ${this.#readerChoice(true)}
      ${this.shares ? this.#sharing() : nothing}
    </fieldset>`;
  }

  #formChoice(form: ReportForm): TemplateResult {
    return html`<label>
      <input
        type="radio"
        name="form"
        .checked=${this.form === form}
        @change=${() => {
          this.form = form;
        }}
      />
      <div>${labels.reportForm[form]} <span>${labels.reportFormMeaning[form]}</span></div>
    </label>`;
  }

  #readerChoice(shares: boolean): TemplateResult {
    return html`<label>
      <input
        type="radio"
        name="reader"
        .checked=${this.shares === shares}
        @change=${() => {
          this.shares = shares;
          void this.#workOut();
        }}
      />
      <div>
        ${shares ? labels.toShare : labels.forDepartment}
        <span>${shares ? labels.toShareMeaning : labels.forDepartmentMeaning}</span>
      </div>
    </label>`;
  }

  #sharing(): TemplateResult {
    return html`<div class="count">
        <label for="count">${labels.smallestCount}</label>
        <input
          id="count"
          type="number"
          min="2"
          max="9999"
          step="1"
          .value=${String(this.smallestCount)}
          @change=${(event: Event) => this.#count(event.target as HTMLInputElement)}
        />
      </div>
      <p class="count quiet">${labels.sharedTwice}</p>
      ${this.shared === undefined ? nothing : this.#withheld(this.shared)}`;
  }

  #withheld({ cells }: ReportInput): TemplateResult {
    const partly = cells.filter(({ withheld = [] }) => withheld.length > 0);
    if (partly.length === 0) return html`<p class="count">${labels.nothingWithheld}</p>`;
    return html`<details class="count">
      <summary>${labels.withheldIn(partly.length)}</summary>
      <ul class="withheld">${partly.map(withheldLine)}</ul>
    </details>`;
  }

  #count(input: HTMLInputElement): void {
    const wanted = Number(input.value);
    if (Number.isInteger(wanted) && wanted >= 2 && wanted <= 9999) this.smallestCount = wanted;
    input.value = String(this.smallestCount);
    void this.#workOut();
  }

  /** What would be withheld is said before anything is saved. */
  async #workOut(): Promise<void> {
    const turn = ++this.#turn;
    this.shared = undefined;
    if (!this.shares) return;
    await this.#guarded(async () => {
      const report = await this.#report();
      if (turn === this.#turn) this.shared = report;
      this.said = "";
    });
  }

  async #report(): Promise<ReportInput> {
    if (this.host === undefined) throw new Error("the page has no host");
    const smallestCount = this.shares ? { smallestCount: this.smallestCount } : {};
    const report = await this.host.ask({ ask: "report", ...smallestCount });
    if (report === null) throw new Error(whyNoReport(this.book));
    return report;
  }

  async #save(): Promise<void> {
    if (this.isMaking) return;
    const { form, shares } = this;
    await this.#guarded(async () => {
      const file = await reportFile(form, await this.#report());
      const name = reportFileName(this.book.notebook?.name ?? "", form, shares);
      download(name, file);
      this.said = labels.savedAs(name);
    });
  }

  async #guarded(work: () => Promise<void>): Promise<void> {
    this.isMaking = true;
    this.said = labels.makingReport;
    try {
      await work();
    } catch (error) {
      this.said = labels.notSaved(error instanceof Error ? error.message : String(error));
    } finally {
      this.isMaking = false;
    }
  }
}

function whyNoReport({ notebook }: BookState): string {
  if (isPooled(notebook)) return labels.noDepartmentsYet;
  if (notebook?.restsOn?.includes("departments") === true) return labels.restsOnBoth;
  return labels.noCasesYet;
}

function withheldLine({ name, withheld = [] }: ReportedCell): TemplateResult {
  return html`<li>${name.replaceAll("_", " ")}: ${withheld.join(" ")}</li>`;
}

declare global {
  interface HTMLElementTagNameMap {
    "save-report": SaveReport;
  }
}
