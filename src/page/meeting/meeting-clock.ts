import { css, html, LitElement, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";

/**
 * How long this page has been looked at, and the meeting as a whole. It is shown and nothing else:
 * no answer and no notebook knows of it.
 */
@customElement("meeting-clock")
export class MeetingClock extends LitElement {
  static override styles = [
    base,
    css`
      span {
        font-variant-numeric: tabular-nums;
      }
    `,
  ];

  /** Whose time runs. */
  @property() page = "";
  /** Minutes that the notebook plans for it. */
  @property({ attribute: false }) planned: number | undefined;
  readonly #spent = new Map<string, number>();
  #ticking: number | undefined;
  #since = 0;

  override connectedCallback(): void {
    super.connectedCallback();
    this.#since = performance.now();
    this.#ticking = window.setInterval(() => this.requestUpdate(), 1000);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    window.clearInterval(this.#ticking);
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    const now = performance.now();
    const watched = changed.has("page") ? (changed.get("page") ?? this.page) : this.page;
    this.#spent.set(watched, (this.#spent.get(watched) ?? 0) + now - this.#since);
    this.#since = now;
  }

  override render(): TemplateResult {
    const all = [...this.#spent.values()].reduce((sum, spent) => sum + spent, 0);
    const times = { page: clockTime(this.#spent.get(this.page) ?? 0), all: clockTime(all) };
    return html`<span role="timer" aria-label=${labels.clockName}
      >${labels.clockText({ ...times, planned: this.planned })}</span
    >`;
  }
}

/** Milliseconds as minutes and seconds, "12:05". */
export function clockTime(spent: number): string {
  const seconds = Math.floor(spent / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

declare global {
  interface HTMLElementTagNameMap {
    "meeting-clock": MeetingClock;
  }
}
