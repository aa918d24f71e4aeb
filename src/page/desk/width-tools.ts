import { css, html, nothing, type TemplateResult } from "lit";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import type { CellView } from "../protocol.ts";
import { resized, rowColumns } from "../sheet/row-widths.ts";

/** How many of the twelve columns of its row a cell takes: narrower, wider, or as it comes. */
export function widthTools(
  from: EventTarget,
  row: readonly CellView[],
  name: string,
): TemplateResult {
  const at = row.findIndex((cell) => cell.name === name);
  const columns = rowColumns(row)[at] ?? 0;
  const button = (by: number, label: string, title: string) => {
    const widths = resized(row, name, columns + by);
    const act = () => widths.size > 0 && send(from, resizeAct(name, widths));
    return html`<button aria-label=${title} title=${title} aria-disabled=${widths.size === 0} @click=${act}
      >${label}</button
    >`;
  };
  return html`<div class="widths" role="group" aria-label=${labels.width}>
    <span>${labels.width}</span>
    ${button(-1, "−", labels.narrower(name))}
    <span class="columns" role="status">${labels.columns(columns)}</span>
    ${button(1, "+", labels.wider(name))}
    ${row[at]?.columns === undefined ? nothing : asItComes(from, name)}
  </div>`;
}

/** One act, whatever number of cells it gives another width; null leaves it to the row. */
export function resizeAct(cell: string, widths: ReadonlyMap<string, number | null>) {
  const changed = [...widths].map(([name, columns]) => ({ name, columns }));
  return { act: "change", request: { ask: "resize cell", cell, widths: changed } } as const;
}

function asItComes(from: EventTarget, name: string): TemplateResult {
  return html`<button
    title=${labels.asItComesTitle(name)}
    @click=${() => send(from, resizeAct(name, new Map([[name, null]])))}
  >
    ${labels.asItComes}
  </button>`;
}

export const widthStyles = css`
  .widths {
    display: flex;
    gap: 4px;
    align-items: center;
  }

  .widths span {
    color: var(--ink-soft);
  }

  .widths button[aria-label] {
    padding: 0;
    min-width: 26px;
  }

  /* Where the window is narrow, cells take the room there is. */
  @media (max-width: 68.75rem) {
    .widths {
      display: none;
    }
  }
`;
