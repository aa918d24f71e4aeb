import { html, type TemplateResult } from "lit";
import { send } from "../act.ts";
import { labels } from "../labels.ts";

/** Darkens the page for a projector, or lights it again. */
export function roomButton(from: EventTarget, dark: boolean): TemplateResult {
  return html`<button class="words" @click=${() => send(from, { act: "darken", dark: !dark })}>
    ${dark ? labels.lightRoom : labels.darkRoom}
  </button>`;
}
