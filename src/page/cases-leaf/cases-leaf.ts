import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import type { ShownLines } from "../host/book-state.ts";
import type { Host } from "../host/host.ts";
import type { CasesKeeping, KeepingState } from "../keeping/cases-keeping.ts";
import { labels } from "../labels.ts";
import { base, buttons } from "../look/base.ts";
import type { CasesView } from "../protocol.ts";
import type { CaseGrid } from "./case-grid.ts";
import "./case-grid.ts";
import type { ArrangedCount } from "./case-pages.ts";
import type { CorrectDialog } from "./correct-dialog.ts";
import { findBehind } from "./find-behind.ts";
import { FocusKept } from "./focus-kept.ts";
import { columnsOf } from "./grid-columns.ts";
import { hiddenColumns, withHidden } from "./hidden-columns.ts";
import "./correct-dialog.ts";
import type { LeafAct } from "./leaf-act.ts";
import { leafLook } from "./leaf-look.ts";
import { aboutColumns, aboutFiles, whatIsAsked, withoutCases } from "./leaf-sections.ts";
import { keepLeafState, type LeafState, leafStateOf } from "./leaf-state.ts";
import "./problem-list.ts";
import "./rows-tools.ts";

/** Milliseconds after which a search says that it is under way. */
const longSearch = 400;

/** The cases: their rows and queries, what was corrected, and how the file was understood. */
@customElement("cases-leaf")
export class CasesLeaf extends LitElement {
  static override styles = [base, buttons, leafLook];

  @property({ attribute: false }) cases: CasesView | undefined;
  @property({ attribute: false }) host: Host | undefined;
  /** Lines behind a number of the sheet, where the reader asked for them. */
  @property({ attribute: false }) shown: ShownLines | undefined;
  @property({ attribute: false }) keeping: CasesKeeping | undefined;
  @property() standing: KeepingState = "off";
  @query("case-grid") private readonly grid!: CaseGrid;
  @query("correct-dialog") private readonly dialog!: CorrectDialog;
  @state() private look: LeafState = leafStateOf(undefined);
  @state() private counted: ArrangedCount | undefined;
  @state() private said = "";

  constructor() {
    super();
    new FocusKept(this);
    this.addEventListener("leaf", (event) => void this.#do((event as CustomEvent<LeafAct>).detail));
  }

  override render(): TemplateResult {
    const { cases } = this;
    if (cases === undefined) return withoutCases(this);
    return html`<div class="leaf">
        ${this.#rows(cases)}
        <section aria-labelledby="queries">
          <h2 id="queries">${labels.problemsTitle}</h2>
          <problem-list .problems=${cases.problems}></problem-list>
        </section>
        <div class="halves">
          <div class="side">${aboutFiles(cases, this)}</div>
          <div class="side columns-side">${aboutColumns(cases)}</div>
        </div>
      </div>
      <correct-dialog .host=${this.host} @closed=${() => this.grid.holdFocus()}></correct-dialog>`;
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has("host")) this.look = leafStateOf(this.host);
    const { shown } = this;
    if (shown !== undefined && shown !== this.look.taken) {
      this.#become({ ...this.look, taken: shown, arrangement: { lines: shown.lines } });
      void this.updateComplete.then(() => this.#place(0, undefined, { focus: true }));
    }
  }

  #rows(cases: CasesView): TemplateResult {
    const { arrangement, order } = this.look;
    const columns = columnsOf(cases);
    const hidden = hiddenColumns(this.look, columns);
    return html`<section aria-labelledby="rows">
      <h2 id="rows">${labels.rowsTitle}</h2>
      ${whatIsAsked(cases)} ${this.#behind()}
      <rows-tools
        .columns=${columns}
        .hiddenColumns=${hidden}
        .columnOrder=${order}
        .empty=${emptyColumns(cases)}
        .arrangement=${arrangement}
        .counted=${this.counted}
      ></rows-tools>
      <case-grid .cases=${cases} .host=${this.host} .arrangement=${arrangement} .hiddenColumns=${hidden} .columnOrder=${order}>
      </case-grid>
      ${this.#under(cases)}
    </section>`;
  }

  #behind(): TemplateResult | typeof nothing {
    const { arrangement, taken } = this.look;
    if (arrangement.lines === undefined || taken === undefined) return nothing;
    return html`<p class="behind">${labels.behindShown(taken.title)}</p>`;
  }

  /** How many rows are shown, what was said last, and the way back to all rows. */
  #under(cases: CasesView): TemplateResult {
    const { where, lines } = this.look.arrangement;
    const { count, undecided } = this.counted ?? { count: cases.casesKept, undecided: 0 };
    const isPart = where !== undefined || lines !== undefined;
    return html`<div class="under">
      <span role="status">
        ${labels.rowsShown(count, cases.casesKept)}${undecided > 0 ? html`; ${labels.undecidedRows(undecided)}` : nothing}.
        ${this.said}
      </span>
      ${
        isPart
          ? html`<button class="words" @click=${() => this.#arrangeAll()}>${labels.allRows}</button>`
          : nothing
      }
      <span>${labels.gridLegend}</span>
    </div>`;
  }

  async #do(act: LeafAct): Promise<void> {
    switch (act.does) {
      case "arrange":
        this.said = "";
        return this.#become({ ...this.look, arrangement: act.arrangement });
      case "hide":
        return this.#hide(act.columns);
      case "order":
        return this.#become({ ...this.look, order: act.columns });
      case "count":
        this.counted = act.counted;
        return;
      case "find":
        return this.#find(act.text);
      case "correct":
        if (!isReadingOnly()) await this.dialog.show(act.values);
        return;
      case "go to":
        return this.#goTo(act);
      case "say":
        this.said = act.text;
    }
  }

  async #find(text: string): Promise<void> {
    const { host, grid, look } = this;
    if (host === undefined) return;
    const searching = setTimeout(() => {
      this.said = labels.searching(text);
    }, longSearch);
    const found = await findBehind(grid, { text, arrangement: look.arrangement }, host);
    clearTimeout(searching);
    if (found === null) {
      this.said = text.trim() === "" ? "" : labels.foundNowhere(text);
      return;
    }
    if ("overtaken" in found) return;
    await this.#place(found.row, found.column, { focus: false });
    this.said = labels.foundInLine(found.line, found.column);
  }

  /** Goes to a value; one of a row that is not among the cases is corrected at once. */
  async #goTo({ at, field }: Extract<LeafAct, { does: "go to" }>): Promise<void> {
    const where = (arrangement: LeafState["arrangement"]) =>
      this.host?.ask({ ask: "place of row", arrangement, at });
    let place = await where(this.look.arrangement);
    if (place === null) {
      place = await where({});
      if (place !== null) this.#arrangeAll();
    }
    if (place === null || place === undefined) {
      this.said = labels.rowNotShown;
      if (field !== undefined && !isReadingOnly()) await this.dialog.show([{ ...at, field }]);
      return;
    }
    if (field !== undefined) this.#unhide(field);
    await this.updateComplete;
    await this.#place(place.row, field, { focus: true });
  }

  async #place(
    row: number,
    field: string | undefined,
    how: { readonly focus: boolean },
  ): Promise<void> {
    await this.grid.updateComplete;
    const column = this.grid.columns.findIndex(({ name }) => name === field) + 1;
    await this.grid.goTo({ row: row + 1, column }, how);
  }

  #hide(hidden: ReadonlySet<string>): void {
    const columns = this.cases ? columnsOf(this.cases) : [];
    this.#become(withHidden(this.look, columns, hidden));
  }

  #unhide(field: string): void {
    const hidden = new Set(this.grid.hiddenColumns);
    if (hidden.delete(field)) this.#hide(hidden);
  }

  #arrangeAll(): void {
    const { sort } = this.look.arrangement;
    this.#become({ ...this.look, arrangement: sort === undefined ? {} : { sort } });
  }

  #become(look: LeafState): void {
    this.look = look;
    keepLeafState(this.host, look);
  }
}

/** A telephone shows the cases; they are corrected at a desk. */
function isReadingOnly(): boolean {
  return window.matchMedia("(max-width: 43.75rem)").matches;
}

/** Names of columns in which every value is missing. */
function emptyColumns({ columns, rowsRead }: CasesView): ReadonlySet<string> {
  const empty = columns.filter(({ missing, name }) => missing === rowsRead && name !== undefined);
  return new Set(empty.map(({ name }) => name ?? ""));
}

declare global {
  interface HTMLElementTagNameMap {
    "cases-leaf": CasesLeaf;
  }
}
