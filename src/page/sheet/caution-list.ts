import { css, html, nothing, type TemplateResult } from "lit";
import type { Caution } from "../../questions/answer.ts";

/** The cautions of an answer, each with a small mark. */
export function cautionList(cautions: readonly Caution[]): TemplateResult | typeof nothing {
  if (cautions.length === 0) return nothing;
  return html`<ul class="cautions">
    ${cautions.map(({ text }) => html`<li>${text}</li>`)}
  </ul>`;
}

export const cautionStyles = css`
  .cautions {
    list-style: none;
    padding: 0;
    display: grid;
    gap: 4px;
    color: var(--caution);
    font-size: var(--caution-size, 0.84375rem);
  }

  .cautions li {
    padding-left: 14px;
    position: relative;
  }

  .cautions li::before {
    content: "";
    position: absolute;
    left: 0;
    top: 0.42em;
    border: 0.32em solid transparent;
    border-right: 0.5em solid var(--caution);
    border-left: 0;
  }
`;
