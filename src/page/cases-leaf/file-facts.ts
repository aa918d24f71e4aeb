import { css, html, LitElement, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { countText } from "../labels/locale.ts";
import { counted, labels } from "../labels.ts";
import { base } from "../look/base.ts";
import type { CasesView } from "../protocol.ts";

/** What the file is, and what became of its rows. */
@customElement("file-facts")
export class FileFactsList extends LitElement {
  static override styles = [
    base,
    css`
      dl {
        display: grid;
        grid-template-columns: max-content minmax(0, 1fr);
        gap: 3px 20px;
      }

      dt {
        color: var(--ink-soft);
      }

      dd {
        overflow-wrap: anywhere;
      }
    `,
  ];

  @property({ attribute: false }) cases!: CasesView;

  override render(): TemplateResult {
    return html`<dl>
      ${factsOf(this.cases).map(([name, text]) => html`<dt>${name}</dt><dd>${text}</dd>`)}
    </dl>`;
  }
}

function factsOf(cases: CasesView): readonly (readonly [string, string])[] {
  const { facts, eyes } = cases;
  const written: readonly (readonly [string, string])[] =
    facts === undefined
      ? []
      : [
          [labels.fileSize, counted(facts.bytes, "byte", "bytes")],
          [labels.fileEncoding, facts.encoding],
          [labels.fileDelimiter, labels.delimiters[facts.delimiter]],
        ];
  return [
    [labels.fileName, cases.file],
    ...written,
    [labels.rowsRead, countText(cases.rowsRead)],
    [labels.casesKept, countText(cases.casesKept)],
    [labels.rowsLeftOut, countText(cases.leftOut)],
    ...(eyes === undefined ? [] : [[labels.eyes, countText(eyes)] as const]),
  ];
}
