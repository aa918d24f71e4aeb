import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Host } from "../host/host.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";
import type { CasesView } from "../protocol.ts";
import "./case-grid.ts";
import "./file-facts.ts";
import "./left-out-rows.ts";
import "./matched-headings.ts";
import "./problem-list.ts";

/** The cases: what the file is, how it was understood, what is wrong in it, and its rows. */
@customElement("cases-leaf")
export class CasesLeaf extends LitElement {
  static override styles = [
    base,
    css`
      .leaf {
        display: grid;
        grid-template-columns: minmax(0, 5fr) minmax(0, 6fr);
        gap: 22px 40px;
        padding: 20px 28px 28px;
      }

      .side {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 22px;
        align-content: start;
        min-width: 0;
      }

      h2 {
        font: 600 18px / 1.3 var(--serif);
        margin-bottom: 6px;
      }

      .across {
        grid-column: 1 / -1;
        min-width: 0;
      }

      .none {
        padding: 28px;
      }

      @media (max-width: 1000px) {
        .leaf {
          grid-template-columns: minmax(0, 1fr);
        }
      }

      @media (max-width: 700px) {
        .leaf {
          padding-inline: 16px;
        }
      }
    `,
  ];

  @property({ attribute: false }) cases: CasesView | undefined;
  @property({ attribute: false }) host: Host | undefined;

  override render(): TemplateResult {
    const { cases, host } = this;
    if (cases === undefined) return html`<p class="none">${labels.noCasesYet}</p>`;
    return html`<div class="leaf">
      <section class="across" aria-labelledby="rows">
        <h2 id="rows">${labels.rowsTitle}</h2>
        <case-grid .cases=${cases} .host=${host}></case-grid>
      </section>
      <div class="side">
        <section>
          <h2>${labels.fileTitle}</h2>
          <file-facts .cases=${cases}></file-facts>
        </section>
        <section>
          <h2>${labels.leftOutRows}</h2>
          <left-out-rows .cases=${cases}></left-out-rows>
        </section>
        <section>
          <h2>${labels.problemsTitle}</h2>
          <problem-list .problems=${cases.problems}></problem-list>
        </section>
      </div>
      <section class="side">
        <div>
          <h2>${labels.columnsTitle}</h2>
          <matched-headings .columns=${cases.columns}></matched-headings>
        </div>
      </section>
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "cases-leaf": CasesLeaf;
  }
}
