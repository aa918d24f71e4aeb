import { html, nothing, type TemplateResult } from "lit";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import type { CellView } from "../protocol.ts";

/** Keeps what a cell says under it, with today's day; the same is not offered twice. */
export function minuteTool(from: EventTarget, view: CellView): TemplateResult | typeof nothing {
  const { name, toMinute, minuted } = view;
  if (toMinute === undefined) return nothing;
  if (minuted.some(({ text, holds }) => holds && text === toMinute)) {
    return html`<span class="hint">${labels.minutedSo(toMinute)}</span>`;
  }
  const request = { ask: "minute", cell: name, text: toMinute } as const;
  return html`<button
    title=${labels.minuteThisTitle(toMinute)}
    @click=${() => send(from, { act: "change", request })}
  >
    ${labels.minuteThis}
  </button>`;
}
