import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import type { FurtherFileKind } from "../../cases/joining/join-report.ts";
import { send } from "../act.ts";
import type { ChangeView, JoinView } from "../cases-protocol.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import { tellLeaf } from "./leaf-act.ts";
import { sectionLook } from "./section-look.ts";

/** Files that were put to the first one: what each brought. Adding another. */
@customElement("further-files")
export class FurtherFiles extends LitElement {
  static override styles = [
    base,
    buttons,
    sectionLook,
    css`
      li {
        padding: 8px 0;
        border-bottom: 1px solid var(--row-line);
      }

      summary {
        cursor: pointer;
        min-height: 26px;
        padding-top: 3px;
      }
    `,
  ];

  @property({ attribute: false }) joins: readonly JoinView[] = [];
  @query("input") private readonly file!: HTMLInputElement;
  #as: FurtherFileKind = "operations";

  override render(): TemplateResult {
    return html`<p class="quiet">${labels.filesHelp}</p>
      ${this.joins.length > 0 ? html`<ul>${this.joins.map((join) => this.#join(join))}</ul>` : nothing}
      <div class="foot large-only">
        <button @click=${() => this.#ask("operations")}>${labels.addQuarter}</button>
        <button @click=${() => this.#ask("follow-up")}>${labels.addFollowUp}</button>
      </div>
      <input
        type="file"
        hidden
        accept=".csv,.tsv,.txt,.xlsx,text/csv"
        @change=${() => this.#chosen()}
      />`;
  }

  #join({ file, as, rowsRead, added, same, changed, missing, leftOut }: JoinView): TemplateResult {
    const { joinCounts } = labels;
    const counts = [
      joinCounts.added(added),
      joinCounts.changed(changed.count),
      joinCounts.same(same),
      joinCounts.missing(missing.count),
      joinCounts.leftOut(leftOut),
    ];
    return html`<li>
      <strong>${file}</strong> (${labels.joinKinds[as]}): ${labels.joinRead(rowsRead)};
      ${counts.join(", ")}.
      ${
        changed.count > 0
          ? this.#details(
              joinCounts.changed(changed.count),
              changed.first.map((change) => this.#change(change)),
            )
          : nothing
      }
      ${
        missing.count > 0
          ? this.#details(joinCounts.missing(missing.count), [
              html`<p class="quiet">${labels.missingKept}</p>`,
              ...missing.first.map((at) => this.#goTo(at)),
            ])
          : nothing
      }
    </li>`;
  }

  #details(summary: string, lines: readonly TemplateResult[]): TemplateResult {
    return html`<details>
      <summary>${summary}</summary>
      <div class="scroll" tabindex="0" role="region" aria-label=${summary}>
        ${lines.map((line) => html`<div>${line}</div>`)}
      </div>
    </details>`;
  }

  #change({ from, to, ...at }: ChangeView): TemplateResult {
    return html`${this.#goTo(at)} ${at.field}: ${labels.changedFromTo(from, to)}`;
  }

  #goTo({ file, line, field }: { file?: string; line: number; field?: string }): TemplateResult {
    const at = { line, ...(file !== undefined && { file }) };
    const go = () => tellLeaf(this, { does: "go to", at, ...(field !== undefined && { field }) });
    return html`<button class="opens" @click=${go}>${labels.correctWhere(line, file)}</button>`;
  }

  #ask(as: FurtherFileKind): void {
    this.#as = as;
    this.file.click();
  }

  async #chosen(): Promise<void> {
    const file = this.file.files?.[0];
    this.file.value = "";
    if (file === undefined) return;
    const bytes = new Uint8Array(await file.arrayBuffer());
    const request = { ask: "add cases", name: file.name, bytes, as: this.#as } as const;
    send(this, { act: "change", request });
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "further-files": FurtherFiles;
  }
}
