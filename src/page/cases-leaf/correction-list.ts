import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import { send } from "../act.ts";
import type { CasesLeafView, CorrectionView, EarlierView } from "../cases-protocol.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import { FocusKept } from "./focus-kept.ts";
import { tellLeaf } from "./leaf-act.ts";
import { sectionLook } from "./section-look.ts";

/** Corrections drawn at once. */
const most = 300;

/** What was corrected, why and when; saving the list, opening it again, taking corrections back. */
@customElement("correction-list")
export class CorrectionList extends LitElement {
  static override styles = [
    base,
    buttons,
    sectionLook,
    css`
      .misfit td,
      .misfit th {
        color: var(--ink-soft);
      }

      .misfit strong {
        color: var(--ink);
        font-weight: 600;
      }
    `,
  ];

  @property({ attribute: false }) view!: CasesLeafView;
  @query("input") private readonly file!: HTMLInputElement;

  constructor() {
    super();
    new FocusKept(this);
  }

  override render(): TemplateResult {
    const { corrections, unsavedCorrections, earlier } = this.view;
    const misfits = corrections.flatMap(({ fits }, position) => (fits ? [] : [position]));
    return html`${
      corrections.length === 0 ? html`<p>${labels.noCorrections}</p>` : this.#table(corrections)
    }
      ${misfits.length > 0 ? html`<p class="caution">${labels.correctionMisfits(misfits.length)}</p>` : nothing}
      ${
        unsavedCorrections > 0
          ? html`<p class="caution" role="status">${labels.unsavedCorrections(unsavedCorrections)}</p>`
          : nothing
      }
      ${earlier === undefined ? nothing : this.#earlier(earlier)}
      <div class="foot large-only">
        <button ?disabled=${corrections.length === 0} @click=${() => send(this, { act: "save corrections" })}>
          ${labels.saveCorrections}
        </button>
        <button @click=${() => this.file.click()}>${labels.openCorrections}</button>
        ${
          misfits.length > 0
            ? html`<button class="words" @click=${() => this.#takeBack(misfits)}>${labels.takeMisfits}</button>`
            : nothing
        }
      </div>
      <input type="file" hidden accept=".csv,text/csv" @change=${() => this.#chosen()} />`;
  }

  #earlier({ file, count }: EarlierView): TemplateResult {
    const lay = () => send(this, { act: "change", request: { ask: "lay earlier corrections" } });
    return html`<p class="caution">${labels.earlierCorrections(count, file)}</p>
      <div class="foot large-only"><button @click=${lay}>${labels.layEarlier}</button></div>`;
  }

  #table(corrections: readonly CorrectionView[]): TemplateResult {
    const shown = corrections.slice(0, most);
    return html`<div class="scroll" tabindex="0" role="region" aria-label=${labels.correctionsList}>
        <table>
          <thead>
            <tr>
              ${labels.correctionColumns.map((text) => html`<th scope="col">${text}</th>`)}
              <td></td>
            </tr>
          </thead>
          <tbody>
            ${shown.map((correction, position) => this.#row(correction, position))}
          </tbody>
        </table>
      </div>
      ${shown.length < corrections.length ? html`<p>${labels.firstOf(shown.length, corrections.length)}</p>` : nothing}`;
  }

  #row(correction: CorrectionView, position: number): TemplateResult {
    const { row, field, from, to, why, date, fits, at } = correction;
    const goTo = () => at && tellLeaf(this, { does: "go to", at, field });
    return html`<tr class=${fits ? "" : "misfit"}>
      <th scope="row">
        ${at === undefined ? row : html`<button class="opens" @click=${goTo}>${row}</button>`}
      </th>
      <td>${field}</td>
      <td>${from || labels.correctNothing}</td>
      <td>${to || labels.correctNothing}</td>
      <td>${why} ${fits ? nothing : html`<strong>(${labels.correctionMisfit})</strong>`}</td>
      <td>${date}</td>
      <td class="large-only">
        <button
          class="words"
          aria-label=${labels.takeBackThis(field, row)}
          @click=${() => this.#takeBack([position])}
        >
          ${labels.takeBack}
        </button>
      </td>
    </tr>`;
  }

  #takeBack(positions: readonly number[]): void {
    send(this, { act: "change", request: { ask: "take back corrections", positions } });
  }

  async #chosen(): Promise<void> {
    const file = this.file.files?.[0];
    this.file.value = "";
    if (file === undefined) return;
    const request = { ask: "open corrections", name: file.name, text: await file.text() } as const;
    send(this, { act: "change", request });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "correction-list": CorrectionList;
  }
}
