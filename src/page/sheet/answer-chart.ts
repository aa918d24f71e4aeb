import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import type { Chart } from "../../charts/chart.ts";
import { type ChartRequest, layChart } from "../../charts/chart-request.ts";
import { type DrawnChart, drawChart } from "../../charts/draw-chart.ts";
import { darkTheme, paperTheme } from "../../charts/theme.ts";
import type { AnswerTable } from "../../questions/answer.ts";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";
import { groupsToHide, withoutGroups } from "./chart-groups.ts";
import { chartLook } from "./chart-look.ts";
import "./chart-tools.ts";
import { walksOf } from "./chart-walk.ts";
import { NearWindow } from "./near-window.ts";
import { placeOfPick } from "./place-of-pick.ts";
import { RoomWatch } from "./room-watch.ts";
import { type Standing, stepOnWalk } from "./walk-steps.ts";

/** Below this many pixels a chart is drawn at this width and scrolled. */
const leastWidth = 320;
/** No chart reads better for being wider than this. */
const mostWidth = 860;

/**
 * The answer as a chart, laid out for the room there is, and drawn anew when that changes. The
 * arrow keys walk along it, each point told in words.
 */
@customElement("answer-chart")
export class AnswerChart extends LitElement {
  static override styles = [base, chartLook];

  @property() cell = "";
  @property({ attribute: false }) chart: ChartRequest | undefined;
  /** The numbers of the same answer, to walk along where the chart has no curves. */
  @property({ attribute: false }) table: AnswerTable = { columns: [], rows: [] };
  @property({ type: Boolean, reflect: true }) dark = false;
  /** How much larger than on the sheet: the meeting reads it from afar. */
  @property({ type: Number }) scale = 1;
  /** For the meeting: nothing opens, and no copies are offered. */
  @property({ type: Boolean }) plain = false;
  @query(".ground") private readonly ground!: HTMLElement;
  @state() private broken = "";
  @state() private unshown: ReadonlySet<number> = new Set();
  @state() private standing: Standing | undefined;
  readonly #room = new RoomWatch(this);
  readonly #near = new NearWindow(this);
  #drawn: DrawnChart | undefined;
  #drawnFor = 0;
  #turn = 0;
  #drawing: Promise<void> = Promise.resolve();

  /** Draws it wherever it is; settles when it is drawn. */
  async drawNow(): Promise<void> {
    this.#near.reach();
    await this.updateComplete;
    await this.#drawing;
  }

  override render(): TemplateResult {
    return html`<div
        class="ground"
        tabindex="0"
        role="group"
        aria-label=${labels.walkHint}
        @keydown=${(event: KeyboardEvent) => this.#key(event)}
        @blur=${() => this.#stand(undefined)}
      >
        <div class="drawing" style=${this.#leastHeight()}></div>
        ${this.#mark()}
      </div>
      <p class="said" role="status">${this.#point()?.words ?? ""}</p>
      ${this.broken === "" ? nothing : html`<p role="alert">${labels.broken(this.broken)}</p>`}
      ${this.plain ? nothing : this.#tools()}`;
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#drawn?.destroy();
    this.#drawn = undefined;
    this.#drawnFor = 0;
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has("chart")) return;
    this.standing = undefined;
    const names = groupsToHide(this.chart).join("\n");
    if (names !== groupsToHide(changed.get("chart")).join("\n")) this.unshown = new Set();
  }

  protected override updated(changed: PropertyValues): void {
    const drawnWidth = this.#room.width !== this.#drawnFor;
    if (drawnWidth || ["chart", "dark", "unshown"].some((name) => changed.has(name))) {
      this.#drawing = this.#draw();
    }
  }

  /** Until it is drawn the chart takes the room that it will have, so that nothing below moves. */
  #leastHeight(): string {
    if (this.#drawn !== undefined || this.#room.width === 0) return "";
    const { scale, width } = this.#size();
    return this.chart === undefined ? "" : `min-height:${this.#laid(width).height * scale}px`;
  }

  #tools(): TemplateResult {
    return html`<chart-tools
      .cell=${this.cell}
      .groups=${groupsToHide(this.chart)}
      .unshown=${this.unshown}
      .chart=${() => this.#laid(Math.min(Math.max(this.#room.width, leastWidth), mostWidth))}
      @toggle-group=${(event: CustomEvent<number>) => this.#toggle(event.detail)}
    ></chart-tools>`;
  }

  #toggle(group: number): void {
    const unshown = new Set(this.unshown);
    if (!unshown.delete(group)) unshown.add(group);
    this.unshown = unshown;
    this.standing = undefined;
  }

  #shown(): ChartRequest | undefined {
    return this.chart && withoutGroups(this.chart, this.unshown);
  }

  #laid(width: number): Chart {
    const chart = this.#shown();
    if (chart === undefined) throw new Error("there is no chart");
    return layChart(chart, { width });
  }

  /** Pixels across as it is laid out, and how much larger it is then drawn. */
  #size(): { readonly width: number; readonly scale: number } {
    const room = this.#room.width;
    const scale = Math.max(1, Math.min(this.scale, room / leastWidth));
    return { scale, width: Math.round(Math.min(Math.max(room / scale, leastWidth), mostWidth)) };
  }

  async #draw(): Promise<void> {
    const room = this.#room.width;
    if (this.chart === undefined || room === 0 || !this.#near.reached) return;
    const turn = ++this.#turn;
    this.#drawnFor = room;
    try {
      const { scale, width } = this.#size();
      const ground = document.createElement("div");
      const theme = this.dark ? darkTheme : paperTheme;
      const drawn = await drawChart(ground, this.#laid(width), { theme });
      if (turn !== this.#turn || !this.isConnected) return drawn.destroy();
      this.#drawn?.destroy();
      ground.querySelector("svg")?.style.setProperty("width", `${width * scale}px`);
      this.ground.querySelector(".drawing")?.replaceChildren(ground);
      drawn.onPick((key) => this.#open(key));
      this.#drawn = drawn;
    } catch (error) {
      this.broken = error instanceof Error ? error.message : String(error);
    }
  }

  #open(key: string): void {
    if (!this.plain) send(this, { act: "pick", cell: this.cell, key });
  }

  #point() {
    return this.standing && this.#walks()[this.standing.walk]?.points[this.standing.point];
  }

  #walks() {
    const chart = this.#shown();
    return chart === undefined ? [] : walksOf(chart, this.table);
  }

  #mark(): TemplateResult | typeof nothing {
    const pick = this.#point()?.pick;
    const place = pick === undefined ? undefined : placeOfPick(this.ground, pick);
    if (place === undefined) return nothing;
    return html`<div class="mark" style="left:${place.x}px;top:${place.y}px"></div>`;
  }

  #stand(standing: Standing | undefined): void {
    this.standing = standing;
  }

  #key(event: KeyboardEvent): void {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const pick = this.#point()?.pick;
    const lengths = this.#walks().map(({ points }) => points.length);
    const next = stepOnWalk(lengths, this.standing, event.key);
    if (next !== undefined) this.#stand(next);
    else if (event.key === "Enter" && pick !== undefined) this.#open(pick);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }
}

declare global {
  interface HTMLElementTagNameMap {
    "answer-chart": AnswerChart;
  }
}
