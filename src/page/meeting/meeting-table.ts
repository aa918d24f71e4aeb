import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import type { AnswerTable as Table } from "../../questions/answer.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";
import "../sheet/answer-table.ts";
import type { AnswerTable } from "../sheet/answer-table.ts";
import { RoomWatch } from "../sheet/room-watch.ts";

/** A table read from afar: as many of its rows as its stage has room for, the rest counted. */
@customElement("meeting-table")
export class MeetingTable extends LitElement {
  static override styles = [
    base,
    css`
      :host([fits]) {
        height: 100%;
      }

      p {
        color: var(--ink-soft);
        padding-top: 6px;
      }

      @media print {
        :host([fits]) {
          height: auto;
        }
      }
    `,
  ];

  @property() caption = "";
  @property({ attribute: false }) table: Table = { columns: [], rows: [] };
  /** Made to fit the height that it is given. */
  @property({ type: Boolean, reflect: true }) fits = false;
  @query("answer-table") private readonly drawn!: AnswerTable;
  @state() private rows = Number.POSITIVE_INFINITY;
  readonly #room = new RoomWatch(this, { heightToo: true });
  #cutFor = "";

  override render(): TemplateResult {
    const { columns, rows } = this.table;
    const shown = rows.slice(0, this.rows);
    const unshown = rows.length - shown.length;
    return html`<answer-table
        plain
        .caption=${this.caption}
        .table=${{ columns, rows: shown }}
      ></answer-table>
      ${unshown === 0 ? nothing : html`<p>${labels.unshownRows(unshown)}</p>`}`;
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has("table")) this.#cutFor = "";
  }

  protected override updated(): void {
    const room = this.fits ? `${this.#room.width} ${this.#room.height}` : "";
    if (room === this.#cutFor || this.#room.width === 0) return;
    this.#cutFor = room;
    void this.#cut();
  }

  /** Lays all rows, and keeps those that end within the stage. */
  async #cut(): Promise<void> {
    this.rows = Number.POSITIVE_INFINITY;
    await this.updateComplete;
    await this.drawn.updateComplete;
    if (!this.fits) return;
    const ends = this.drawn.rowEnds();
    const end = this.getBoundingClientRect().bottom;
    if ((ends.at(-1) ?? 0) <= end) return;
    const line = 2 * Number.parseFloat(getComputedStyle(this).fontSize);
    this.rows = Math.max(1, ends.filter((at) => at <= end - line).length);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "meeting-table": MeetingTable;
  }
}
