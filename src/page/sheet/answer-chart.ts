import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { type ChartRequest, layChart } from "../../charts/chart-request.ts";
import { type DrawnChart, drawChart } from "../../charts/draw-chart.ts";
import { darkTheme, paperTheme } from "../../charts/theme.ts";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";
import { RoomWatch } from "./room-watch.ts";

/** Below this many pixels a chart is drawn at this width and scrolled. */
const leastWidth = 320;
/** No chart reads better for being wider than this. */
const mostWidth = 860;

/** The answer as a chart, laid out for the room there is, and drawn anew when that changes. */
@customElement("answer-chart")
export class AnswerChart extends LitElement {
  static override styles = [
    base,
    css`
      .ground {
        max-width: 100%;
        overflow-x: auto;
      }

      .ground svg {
        display: block;
        height: auto;
      }

      @media print {
        .ground {
          break-inside: avoid;
        }

        .ground svg {
          max-width: 100%;
          max-height: 105mm;
        }

        /* Drawn for a darkened room, printed on white paper. */
        :host([dark]) .ground svg {
          filter: invert(1) hue-rotate(180deg);
        }
      }
    `,
  ];

  @property() cell = "";
  @property({ attribute: false }) chart: ChartRequest | undefined;
  @property({ type: Boolean, reflect: true }) dark = false;
  /** How much larger than on the sheet: the meeting reads it from afar. */
  @property({ type: Number }) scale = 1;
  @query(".ground") private readonly ground!: HTMLElement;
  @state() private broken = "";
  readonly #room = new RoomWatch(this);
  #drawn: DrawnChart | undefined;
  #drawnFor = 0;
  #turn = 0;

  override render(): TemplateResult {
    return html`<div class="ground"></div>
      ${this.broken === "" ? nothing : html`<p role="alert">${labels.broken(this.broken)}</p>`}`;
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#drawn?.destroy();
    this.#drawn = undefined;
  }

  protected override updated(changed: PropertyValues<this>): void {
    const drawnWidth = this.#room.width !== this.#drawnFor;
    if (drawnWidth || changed.has("chart") || changed.has("dark")) void this.#draw();
  }

  async #draw(): Promise<void> {
    const room = this.#room.width;
    if (this.chart === undefined || room === 0) return;
    const turn = ++this.#turn;
    this.#drawnFor = room;
    try {
      const scale = Math.max(1, Math.min(this.scale, room / leastWidth));
      const width = Math.round(Math.min(Math.max(room / scale, leastWidth), mostWidth));
      const laid = layChart(this.chart, { width });
      const ground = document.createElement("div");
      const drawn = await drawChart(ground, laid, { theme: this.dark ? darkTheme : paperTheme });
      if (turn !== this.#turn || !this.isConnected) return drawn.destroy();
      this.#drawn?.destroy();
      ground.querySelector("svg")?.style.setProperty("width", `${width * scale}px`);
      this.ground.replaceChildren(ground);
      drawn.onPick((key) => send(this, { act: "pick", cell: this.cell, key }));
      this.#drawn = drawn;
    } catch (error) {
      this.broken = error instanceof Error ? error.message : String(error);
    }
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "answer-chart": AnswerChart;
  }
}
