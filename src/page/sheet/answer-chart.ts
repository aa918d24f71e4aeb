import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import type { Chart } from "../../charts/chart.ts";
import { type ChartRequest, layChart } from "../../charts/chart-request.ts";
import { type DrawnChart, drawChart } from "../../charts/draw-chart.ts";
import { darkTheme, evenText, paperTheme, textSize } from "../../charts/theme.ts";
import type { AnswerTable } from "../../questions/answer.ts";
import { send } from "../act.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";
import { painted } from "../look/painted.ts";
import { textScale } from "../look/text-scale.ts";
import { groupsToHide, withoutGroups } from "./chart-groups.ts";
import { chartLook } from "./chart-look.ts";
import "./chart-tools.ts";
import { walksOf } from "./chart-walk.ts";
import { fittedChart } from "./fitted-chart.ts";
import { NearWindow } from "./near-window.ts";
import { placeOfPick } from "./place-of-pick.ts";
import { RoomWatch } from "./room-watch.ts";
import { type Standing, stepOnWalk } from "./walk-steps.ts";

/** Below this many pixels a chart is drawn at this width and scrolled. */
const leastWidth = 320;
/** Shares of the size that the text should have, tried where the stage is low. */
const smaller = [1, 0.85, 0.7];
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
  /**
   * For the meeting, read from afar: drawn so large that its text is as large as the text around it,
   * and made to fit the height that it is given.
   */
  @property({ type: Boolean, reflect: true }) fits = false;
  /** For the meeting: nothing opens, and no copies are offered. */
  @property({ type: Boolean }) plain = false;
  @query(".ground") private readonly ground!: HTMLElement;
  @state() private broken = "";
  @state() private unshown: ReadonlySet<number> = new Set();
  @state() private standing: Standing | undefined;
  /** Rows of the chart that its stage has no room for. */
  @state() private unshownRows = 0;
  readonly #room = new RoomWatch(this, { heightToo: true });
  readonly #near = new NearWindow(this);
  #drawn: DrawnChart | undefined;
  #drawnFor = "";
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
      ${this.unshownRows === 0 ? nothing : html`<p class="more">${labels.unshownRows(this.unshownRows)}</p>`}
      ${this.broken === "" ? nothing : html`<p role="alert">${labels.broken(this.broken)}</p>`}
      ${this.plain ? nothing : this.#tools()}`;
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#drawn?.destroy();
    this.#drawn = undefined;
    this.#drawnFor = "";
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has("chart")) return;
    this.standing = undefined;
    const names = groupsToHide(this.chart).join("\n");
    if (names !== groupsToHide(changed.get("chart")).join("\n")) this.unshown = new Set();
  }

  protected override updated(changed: PropertyValues): void {
    if (
      this.#roomNow() !== this.#drawnFor ||
      ["chart", "dark", "unshown"].some((name) => changed.has(name))
    ) {
      this.#drawing = this.#draw();
    }
  }

  /** Until it is drawn the chart takes the room that it will have, so that nothing below moves. */
  #leastHeight(): string {
    if (this.#drawn !== undefined || this.#room.width === 0 || this.fits) return "";
    if (this.chart === undefined) return "";
    const scale = this.#scale();
    return `min-height:${this.#laid(this.#width(scale)).height * scale}px`;
  }

  #tools(): TemplateResult {
    return html`<chart-tools
      .cell=${this.cell}
      .groups=${groupsToHide(this.chart)}
      .unshown=${this.unshown}
      .chart=${() => this.#laid(this.#width())}
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

  #roomNow(): string {
    return this.fits ? `${this.#room.width} ${this.#room.height}` : String(this.#room.width);
  }

  /** Pixels across as it is laid out. */
  #width(scale = 1): number {
    return Math.round(Math.min(Math.max(this.#room.width / scale, leastWidth), mostWidth));
  }

  /** How much larger than it is laid out it is drawn. */
  #scale(): number {
    const text = this.fits
      ? Number.parseFloat(getComputedStyle(this).fontSize) / textSize.label
      : textScale();
    return Math.max(1, Math.min(text, this.#room.width / leastWidth));
  }

  /**
   * The chart for the room there is, and how much larger it is drawn: with smaller text where it
   * does not fit the stage otherwise, and scrolled where it does not even so.
   */
  #laidToFit(): { readonly chart: Chart; readonly scale: number } {
    const request = this.#shown();
    const usual = this.#scale();
    for (const scale of request && this.fits ? smaller.map((share) => usual * share) : []) {
      const stage = { width: this.#width(scale), height: this.#room.height / scale };
      const fitted = request && fittedChart(request, stage);
      if (fitted === undefined) continue;
      this.unshownRows = fitted.unshown;
      return { chart: layChart(fitted.request, fitted), scale };
    }
    this.unshownRows = 0;
    return { chart: this.#laid(this.#width(usual)), scale: usual };
  }

  async #draw(): Promise<void> {
    if (this.chart === undefined || this.#room.width === 0 || !this.#near.reached) return;
    const turn = ++this.#turn;
    this.#drawnFor = this.#roomNow();
    // A number is read before its picture, and a picture takes longer: words are painted first.
    await painted();
    if (turn !== this.#turn || !this.isConnected) return;
    try {
      const { chart, scale } = this.#laidToFit();
      const ground = document.createElement("div");
      const room = this.dark ? darkTheme : paperTheme;
      const drawn = await drawChart(ground, chart, { theme: this.fits ? evenText(room) : room });
      if (turn !== this.#turn || !this.isConnected) return drawn.destroy();
      this.#drawn?.destroy();
      ground.querySelector("svg")?.style.setProperty("width", `${chart.width * scale}px`);
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
