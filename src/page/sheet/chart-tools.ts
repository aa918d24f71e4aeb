import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Chart } from "../../charts/chart.ts";
import { paperTheme } from "../../charts/theme.ts";
import { send } from "../act.ts";
import { download } from "../book/download-text.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import { chartAsCsv, chartAsPng, chartAsSvg, chartAsTabs } from "./chart-copies.ts";

/** Under a chart: which groups it shows, and copies of it to take away. */
@customElement("chart-tools")
export class ChartTools extends LitElement {
  static override styles = [
    base,
    buttons,
    css`
      summary {
        cursor: pointer;
        font-size: 0.8125rem;
        color: var(--ink-soft);
        min-height: 24px;
        line-height: 1.5rem;
        width: fit-content;
      }

      .tools {
        display: grid;
        grid-template-columns: max-content minmax(0, 1fr);
        gap: 6px 14px;
        padding: 4px 0 8px;
        font-size: 0.84375rem;
      }

      .tools > span {
        color: var(--ink-soft);
      }

      .choices {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 14px;
      }

      label {
        display: inline-flex;
        align-items: center;
        gap: 6px;
        min-height: 24px;
      }

      input {
        accent-color: var(--ink);
        width: 16px;
        height: 16px;
        margin: 0;
      }

      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  /** Name of the cell, which the files are named after. */
  @property() cell = "";
  @property({ attribute: false }) groups: readonly string[] = [];
  @property({ attribute: false }) unshown: ReadonlySet<number> = new Set();
  /** The chart as it is shown. */
  @property({ attribute: false }) chart: (() => Chart) | undefined;
  @state() private said = "";

  override render(): TemplateResult {
    return html`<details>
      <summary>
        ${this.groups.length === 0 ? labels.copiesAlone : labels.groupsAndCopies}
      </summary>
      <div class="tools">
        ${this.groups.length === 0 ? nothing : this.#choices()}
        <span>${labels.copies}</span>
        <div class="choices">
          ${this.#button(labels.saveSvg, labels.saveSvgTitle, () => this.#saveSvg())}
          ${this.#button(labels.savePng, labels.savePngTitle, () => this.#savePng())}
          ${this.#button(labels.saveCsv, labels.saveCsvTitle, () => this.#saveCsv())}
          ${this.#button(labels.copyAnswer, labels.copyAnswerTitle(this.cell), () =>
            send(this, { act: "copy answer", cell: this.cell }),
          )}
          ${this.#button(labels.copyNumbers, labels.copyNumbers, () => this.#copyNumbers())}
          <span role="status">${this.said}</span>
        </div>
      </div>
    </details>`;
  }

  #choices(): TemplateResult {
    return html`<span id="shown">${labels.groupsShown}</span>
      <div class="choices" role="group" aria-labelledby="shown">
        ${this.groups.map(
          (group, i) => html`<label>
            <input
              type="checkbox"
              .checked=${!this.unshown.has(i)}
              @change=${() => this.#toggle(i)}
            />${group}
          </label>`,
        )}
      </div>`;
  }

  #button(text: string, title: string, act: () => Promise<void> | void): TemplateResult {
    return html`<button title=${title} @click=${() => void this.#guarded(act)}>${text}</button>`;
  }

  #toggle(group: number): void {
    this.dispatchEvent(new CustomEvent<number>("toggle-group", { detail: group }));
  }

  async #guarded(act: () => Promise<void> | void): Promise<void> {
    try {
      this.said = "";
      await act();
    } catch (error) {
      this.said = labels.broken(error instanceof Error ? error.message : String(error));
    }
  }

  #drawn(): Chart {
    if (this.chart === undefined) throw new Error("there is no chart");
    return this.chart();
  }

  /** Copies go onto paper and into slides, whatever the room is like. */
  async #saveSvg(): Promise<void> {
    const svg = await chartAsSvg(this.#drawn(), paperTheme);
    download(`${this.cell}.svg`, new Blob([svg], { type: "image/svg+xml" }));
  }

  async #savePng(): Promise<void> {
    download(`${this.cell}.png`, await chartAsPng(this.#drawn(), paperTheme));
  }

  #saveCsv(): void {
    download(`${this.cell}.csv`, new Blob([chartAsCsv(this.#drawn())], { type: "text/csv" }));
  }

  async #copyNumbers(): Promise<void> {
    const text = chartAsTabs(this.#drawn());
    try {
      await navigator.clipboard.writeText(text);
      this.said = labels.copied;
    } catch {
      // A browser may refuse the clipboard to a page from disk.
      this.said = labels.copyRefused;
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "chart-tools": ChartTools;
  }
}
