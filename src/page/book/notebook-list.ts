import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { send } from "../act.ts";
import type { NamedText } from "../host/named-text.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import { dialogLook } from "./dialog-look.ts";

/** Opens a notebook: one that comes with the page, or a file. */
@customElement("notebook-list")
export class NotebookList extends LitElement {
  static override styles = [base, buttons, dialogLook];

  @property({ attribute: false }) shipped: readonly NamedText[] = [];
  @query("dialog") private readonly dialog!: HTMLDialogElement;
  @query("input") private readonly file!: HTMLInputElement;
  @state() private open = false;

  show(): void {
    this.open = true;
    this.dialog.showModal();
  }

  override render(): TemplateResult {
    return html`<dialog
        aria-labelledby="title"
        @close=${() => {
          this.open = false;
        }}
      >
        ${this.open ? this.#form() : nothing}
      </dialog>
      <input
        type="file"
        hidden
        accept=".md,.markdown,text/markdown"
        @change=${() => this.#chosen()}
      />`;
  }

  #form(): TemplateResult {
    return html`<form method="dialog">
      <h2 id="title">${labels.notebooksName}</h2>
      <p class="quiet">${labels.shippedMeaning}</p>
      <div class="choices">${this.shipped.map((notebook) => this.#choice(notebook))}</div>
      <div class="foot">
        <button type="button" class="first" @click=${() => this.file.click()}>
          ${labels.fromFile}
        </button>
        <button
          type="button"
          title=${labels.beginAgainTitle}
          @click=${() => this.#close(() => send(this, { act: "begin again" }))}
        >
          ${labels.beginAgain}
        </button>
        <button>${labels.cancel}</button>
      </div>
    </form>`;
  }

  #choice(notebook: NamedText): TemplateResult {
    const request = { ask: "open notebook", ...notebook } as const;
    return html`<button
      type="button"
      @click=${() => this.#close(() => send(this, { act: "change", request }))}
    >
      <strong>${titleIn(notebook)}</strong><span>${notebook.name}</span>
    </button>`;
  }

  #close(then: () => void): void {
    this.dialog.close();
    then();
  }

  #chosen(): void {
    const file = this.file.files?.[0];
    this.file.value = "";
    if (file !== undefined) this.#close(() => send(this, { act: "open file", file }));
  }
}

/** The title in the front matter of a notebook that comes with the page. */
function titleIn({ name, text }: NamedText): string {
  return /^title: *(.+)$/m.exec(text)?.[1]?.replace(/^(["'])(.*)\1$/, "$2") ?? name;
}

declare global {
  interface HTMLElementTagNameMap {
    "notebook-list": NotebookList;
  }
}
