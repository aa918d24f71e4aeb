import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { formatWorking } from "../../formula/format.ts";
import type { Problem } from "../../problem/problem.ts";
import { send } from "../act.ts";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import type { CellView } from "../protocol.ts";
import "../sheet/cell-fault.ts";
import type { OpenedEditor } from "./open-editor.ts";

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
  @query(".ground") private readonly ground!: HTMLElement;
  /** Faults of what is being written; those of the cell itself until something is. */
  @state() private typed: { readonly text: string; readonly problems: readonly Problem[] } | null =
    null;
  #editor: OpenedEditor | undefined;
  #opening: Promise<void> | undefined;

  override render(): TemplateResult {
    const working = this.typed?.text ?? this.view.working;
    const problems = this.typed?.problems ?? this.view.problems;
    return html`<div class="ground"></div>
      ${this.typed === null ? nothing : this.#buttons()}
      <cell-fault
        brief
        .cell=${this.view.name}
        .working=${working}
        .problems=${problems}
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

  protected override willUpdate(changed: PropertyValues<this>): void {
    const before = changed.get("view") as CellView | undefined;
    if (before === undefined) return;
    if (before.name !== this.view.name || before.working !== this.view.working) this.typed = null;
  }

  protected override updated(changed: PropertyValues<this>): void {
    if (!changed.has("view")) return;
    this.#opening ??= this.#open();
    if (this.typed === null) this.#editor?.show(this.view.name, this.view.working);
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
      apply: (text) => this.#apply(text),
      leave: () => this.#leave(),
      escape: () => this.#escape(),
    });
    this.#editor.show(this.view.name, this.view.working);
  }

  #buttons(): TemplateResult {
    return html`<div @mousedown=${(event: Event) => event.preventDefault()}>
      <button class="first" @click=${() => this.#apply(this.typed?.text ?? "")}>
        ${labels.apply}
      </button>
      <button @click=${() => this.#escape()}>${labels.cancel}</button>
    </div>`;
  }

  #typing(text: string, problems: readonly Problem[]): void {
    this.typed = text === this.view.working ? null : { text, problems };
  }

  /** What was typed and not applied is applied on leaving: nothing typed is lost. */
  #leave(): void {
    if (this.typed !== null) this.#apply(this.typed.text);
  }

  #apply(text: string): void {
    const cell = this.view.name;
    const working = formatWorking(text);
    this.typed = null;
    if (working === this.view.working) this.#editor?.show(cell, working);
    else send(this, { act: "change", request: { ask: "set working", cell, working } });
  }

  #escape(): void {
    this.typed = null;
    this.#editor?.show(this.view.name, this.view.working);
    send(this, { act: "leave desk" });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "working-editor": WorkingEditor;
  }
}
