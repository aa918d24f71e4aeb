import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import type { Problem } from "../../problem/problem.ts";
import { type Act, send } from "../act.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import type { CellView } from "../protocol.ts";
import "../sheet/cell-fault.ts";
import type { OpenedEditor } from "./open-editor.ts";
import type { Drafting } from "./question-form.ts";

/** The working as text. The editor is fetched when a working is first opened. */
@customElement("working-editor")
export class WorkingEditor extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      :host {
        display: grid;
        gap: 8px;
      }

      .ground {
        background: var(--leaf);
        border: 1px solid var(--edge-strong);
        border-radius: 2px;
        min-height: 40px;
      }

      .ground:focus-within {
        outline: 2px solid var(--ink);
        outline-offset: 1px;
      }
    `,
  ];

  @property({ attribute: false }) view!: CellView;
  @property({ attribute: false }) host: Host | undefined;
  /** What is being written, here or in the form; undefined where nothing is. */
  @property() draft: string | undefined;
  @query(".ground") private readonly ground!: HTMLElement;
  /** Faults of what is being written, once they are known. */
  @state() private faults: { readonly text: string; readonly problems: readonly Problem[] } | null =
    null;
  #editor: OpenedEditor | undefined;
  #opening: Promise<void> | undefined;

  constructor() {
    super();
    this.addEventListener("focusout", (event) => this.#left(event));
  }

  override render(): TemplateResult {
    const working = this.draft ?? this.view.working;
    const known = this.faults?.text === working ? this.faults.problems : [];
    const problems = this.draft === undefined ? this.view.problems : known;
    return html`<div class="ground"></div>
      ${this.draft === undefined ? nothing : this.#buttons()}
      <cell-fault
        brief
        .cell=${this.view.name}
        .working=${working}
        .problems=${problems}
        @act=${(event: CustomEvent<Act>) => this.#mended(event)}
      ></cell-fault>`;
  }

  /** Puts the keyboard into the working. */
  async enter(): Promise<void> {
    await this.updateComplete;
    await this.#opening;
    this.#editor?.focus();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#leave();
    this.#editor?.destroy();
    this.#editor = undefined;
    this.#opening = undefined;
  }

  protected override updated(changed: PropertyValues<this>): void {
    if (!changed.has("view") && !changed.has("draft")) return;
    this.#opening ??= this.#open();
    this.#show();
  }

  #show(): void {
    this.#editor?.show(this.view.name, this.draft ?? this.view.working);
  }

  async #open(): Promise<void> {
    const { openEditor } = await import("./open-editor.ts");
    if (!this.isConnected || this.host === undefined) return;
    this.#editor = openEditor({
      ground: this.ground,
      root: this.renderRoot as ShadowRoot,
      host: this.host,
      label: labels.editWorking,
      typed: (text, problems) => this.#typing(text, problems),
      apply: (text) => this.#tell({ text, finished: true }),
      escape: () => this.#escape(),
    });
    this.#show();
  }

  #buttons(): TemplateResult {
    return html`<div @mousedown=${(event: Event) => event.preventDefault()}>
      <button class="first" @click=${() => this.#apply()}>${labels.apply}</button>
      <button @click=${() => this.#escape()}>${labels.cancel}</button>
    </div>`;
  }

  #typing(text: string, problems: readonly Problem[]): void {
    this.faults = { text, problems };
    this.#tell({ text, finished: false });
  }

  /** The button goes away with what it did: the keyboard goes back to the text. */
  #apply(): void {
    this.#editor?.focus();
    this.#leave();
  }

  /** A remedy taken here mends what is being written. */
  #mended(event: CustomEvent<Act>): void {
    const act = event.detail;
    if (act.act !== "change" || act.request.ask !== "set working") return;
    event.stopPropagation();
    this.#editor?.focus();
    this.#tell({ text: act.request.working, finished: true });
  }

  /** From the text to the buttons below it is not away from the working. */
  #left({ relatedTarget }: FocusEvent): void {
    if (!(relatedTarget instanceof Node && this.renderRoot.contains(relatedTarget))) this.#leave();
  }

  /** What was typed and not applied is applied on leaving: nothing typed is lost. */
  #leave(): void {
    if (this.draft !== undefined) this.#tell({ text: this.draft, finished: true });
  }

  #escape(): void {
    this.#tell({ text: this.view.working, finished: false });
    send(this, { act: "leave desk" });
  }

  #tell(drafting: Drafting): void {
    this.dispatchEvent(new CustomEvent<Drafting>("draft", { detail: drafting }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "working-editor": WorkingEditor;
  }
}
