import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { readSecret, secretBytes, writeSecret } from "../../cases/pseudonyms/secret-file.ts";
import { formatProblem } from "../../problem/format-problem.ts";
import type { Problem } from "../../problem/problem.ts";
import { send } from "../act.ts";
import { downloadText } from "../book/download-text.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import { FocusKept } from "./focus-kept.ts";
import { sectionLook } from "./section-look.ts";

/** Codes of patients by a key of the reader's own: making it, saving it, opening it again. */
@customElement("patient-key")
export class PatientKey extends LitElement {
  static override styles = [base, buttons, sectionLook];

  @property({ type: Boolean }) inUse = false;
  @property({ attribute: false }) host: Host | undefined;
  @query("input") private readonly file!: HTMLInputElement;
  @state() private problems: readonly Problem[] = [];

  constructor() {
    super();
    new FocusKept(this);
  }

  override render(): TemplateResult {
    return html`<p role="status">${this.inUse ? labels.codesKeyed : labels.codesNumbered}</p>
      <p class="quiet">${labels.codesSecret} ${labels.codesAndCorrections}</p>
      <div role="alert">${this.problems.map((problem) => html`<p>${formatProblem(problem)}</p>`)}</div>
      <div class="foot large-only">
        <button @click=${() => this.#make()}>${labels.makeKey}</button>
        <button @click=${() => this.file.click()}>${labels.openKey}</button>
        ${
          this.inUse
            ? html`<button @click=${() => this.#saveAgain()}>${labels.saveKey}</button>
                <button class="words" @click=${() => this.#use(undefined)}>${labels.withoutKey}</button>`
            : nothing
        }
      </div>
      <input type="file" hidden accept=".txt,text/plain" @change=${() => this.#chosen()} />`;
  }

  /** The key is handed over as a file before anything is coded with it. */
  #make(): void {
    const secret = crypto.getRandomValues(new Uint8Array(secretBytes));
    saveKey(secret);
    this.#use(secret);
  }

  async #saveAgain(): Promise<void> {
    const held = await this.host?.ask({ ask: "cases to keep" });
    if (held?.secret !== undefined) saveKey(held.secret);
  }

  async #chosen(): Promise<void> {
    const file = this.file.files?.[0];
    this.file.value = "";
    if (file === undefined) return;
    const read = readSecret(await file.text(), file.name);
    this.problems = read.ok ? [] : read.problems;
    if (read.ok) this.#use(read.secret);
  }

  #use(secret: Uint8Array | undefined): void {
    const request = { ask: "use key", ...(secret && { secret }) } as const;
    send(this, { act: "change", request });
  }
}

function saveKey(secret: Uint8Array): void {
  downloadText({ name: labels.keyFile, text: writeSecret(secret) }, "text/plain");
}

declare global {
  interface HTMLElementTagNameMap {
    "patient-key": PatientKey;
  }
}
