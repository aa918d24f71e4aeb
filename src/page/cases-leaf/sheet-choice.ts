import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import type { SheetFound } from "../../cases/workbook/sheets-in.ts";
import { dialogLook } from "../book/dialog-look.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";

/** The file as it is to be opened. */
export interface SheetChosen {
  /** Absent where there is nothing to choose. */
  readonly sheet?: string;
}

/** Asks which sheet of a workbook holds the cases, where several hold something. */
@customElement("sheet-choice")
export class SheetChoice extends LitElement {
  static override styles = [base, buttons, dialogLook];

  @property({ attribute: false }) host: Host | undefined;
  @query("dialog") private readonly dialog!: HTMLDialogElement;
  @query(".likeliest") private readonly likeliest!: HTMLElement | null;
  @state() private file = "";
  @state() private sheets: readonly SheetFound[] = [];
  #chosen: (sheet: string | undefined) => void = () => {};

  /** Undefined where the reader would rather not open it. */
  async chosenFor(file: string, bytes: Uint8Array): Promise<SheetChosen | undefined> {
    const { sheets } = (await this.host?.ask({ ask: "sheets in", bytes })) ?? { sheets: [] };
    if (sheets.length < 2) return {};
    this.file = file;
    this.sheets = sheets;
    await this.updateComplete;
    this.dialog.showModal();
    this.likeliest?.focus();
    const sheet = await new Promise<string | undefined>((done) => {
      this.#chosen = done;
    });
    return sheet === undefined ? undefined : { sheet };
  }

  override render(): TemplateResult {
    return html`<dialog aria-labelledby="title" @close=${() => this.#leave()}>
      ${this.sheets.length === 0 ? nothing : this.#form()}
    </dialog>`;
  }

  #form(): TemplateResult {
    return html`<form method="dialog">
      <h2 id="title">${labels.whichSheet(this.file)}</h2>
      <div class="choices">
        ${this.sheets.map(
          ({ name, rows, looksLikeCases }) =>
            html`<button
              type="button"
              class=${looksLikeCases ? "likeliest" : ""}
              @click=${() => this.#choose(name)}
            >
              <strong>${name}</strong
              ><span>${labels.sheetRows(rows)}${looksLikeCases ? labels.sheetLikeliest : ""}</span>
            </button>`,
        )}
      </div>
      <div class="foot"><button>${labels.cancel}</button></div>
    </form>`;
  }

  #choose(sheet: string): void {
    this.#chosen(sheet);
    this.dialog.close();
  }

  /** Whoever closes it without a choice opens nothing. */
  #leave(): void {
    this.#chosen(undefined);
    this.sheets = [];
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "sheet-choice": SheetChoice;
  }
}
