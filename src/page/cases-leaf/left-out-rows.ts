import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { counted, labels } from "../labels.ts";
import { base } from "../look/base.ts";
import type { CasesView, LeftOutReason } from "../protocol.ts";

const mostLines = 40;

/** Rows of the file that no answer uses, by reason, with their lines. */
@customElement("left-out-rows")
export class LeftOutRows extends LitElement {
  static override styles = [
    base,
    css`
      ul {
        padding: 0;
        list-style: none;
        display: grid;
        gap: 6px;
      }

      small {
        font-size: 0.8125rem;
        color: var(--ink-soft);
      }
    `,
  ];

  @property({ attribute: false }) cases!: CasesView;

  override render(): TemplateResult {
    if (this.cases.leftOut === 0) return html`<p>${labels.nothingLeftOut}</p>`;
    return html`<ul>${(this.cases.leftOutReasons ?? []).map(reason)}</ul>`;
  }
}

function reason(of: LeftOutReason): TemplateResult {
  const shown = of.lines.slice(0, mostLines).join(", ");
  const more = of.lines.length > mostLines ? labels.andMore(of.lines.length - mostLines) : "";
  return html`<li>
    ${counted(of.lines.length, "row", "rows")}: ${of.reason}<br />
    <small>${labels.inLines(of.lines.length)} ${shown}${more}${of.file ? ` (${of.file})` : ""}</small>
  </li>`;
}
