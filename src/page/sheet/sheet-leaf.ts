import { html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { repeat } from "lit/directives/repeat.js";
import { formatProblem } from "../../problem/format-problem.ts";
import { send } from "../act.ts";
import { resizeAct } from "../desk/width-tools.ts";
import { type BookState, cellOrder, closedBook, rowsOf } from "../host/book-state.ts";
import { labels } from "../labels.ts";
import { base } from "../look/base.ts";
import type { BlockView, CellPlace, CellView } from "../protocol.ts";
import { bringIntoSight } from "./bring-into-sight.ts";
import { CellDrag, type CellUnder } from "./cell-drag.ts";
import { CellResize } from "./cell-resize.ts";
import { stepFrom } from "./cell-steps.ts";
import { type MoveKey, placeBy } from "./move-steps.ts";
import { placedAround } from "./placed-cells.ts";
import { whenPressed } from "./pointer-course.ts";
import "./prose-block.ts";
import { resized, rowColumns, rowWidths, type Widths } from "./row-widths.ts";
import "./sheet-cell.ts";
import "./sheet-guide.ts";
import type { SheetGuide, WayTo } from "./sheet-guide.ts";
import { sheetLook } from "./sheet-look.ts";

const steps = ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Home", "End"];
const moves: readonly string[] = steps.slice(0, 4);

/** Blocks from which a sheet is long: what is far from the window is not laid out. */
const longSheet = 60;

/** The sheet: the notebook's prose, and between it rows of one to four cells side by side. */
@customElement("sheet-leaf")
export class SheetLeaf extends LitElement {
  static override styles = [base, sheetLook];

  @property({ attribute: false }) book: BookState = closedBook;
  @state() private said = "";
  @query("sheet-guide") private readonly guide!: SheetGuide | null;
  #isPressed = false;
  #hadKeyboard = false;
  readonly #drag = new CellDrag(this, {
    cellAt: (x, y) => this.#cellAt(x, y),
    move: (cell, to) => this.#move(cell, to),
  });
  readonly #resize = new CellResize(this, {
    widths: (cell, columns) => resized(this.#rowOf(cell), cell, columns),
    resize: (cell, widths) => send(this, resizeAct(cell, widths)),
  });

  override render(): TemplateResult {
    const { notebook } = this.book;
    if (notebook === undefined) return html``;
    return html`<sheet-guide
        .book=${this.book}
        @go=${(event: CustomEvent<WayTo | null>) => this.#go(event.detail)}
        @look=${(event: CustomEvent<WayTo>) => this.#look(event.detail)}
      ></sheet-guide>
      <section
        class="sheet ${notebook.blocks.length >= longSheet ? "long" : ""}"
        aria-label=${labels.sheetName}
        @keydown=${(event: KeyboardEvent) => this.#key(event)}
        @focusin=${(event: FocusEvent) => this.#focused(event)}
        @pointerdown=${(event: PointerEvent) => this.#pressed(event)}
      >
        ${notebook.problems.map((problem) => html`<pre>${formatProblem(problem)}</pre>`)}
        ${cellOrder(notebook).length === 0 ? html`<p>${labels.emptySheet}</p>` : nothing}
        ${repeat(notebook.blocks, blockKey, (block) => this.#block(block))}
        <p class="caution">${labels.caution}</p>
        <p class="heard-only" role="status">${this.said}</p>
      </section>
      ${this.#dropLine()}`;
  }

  protected override willUpdate(): void {
    this.#hadKeyboard = this.shadowRoot?.activeElement?.localName === "sheet-cell";
  }

  /** Where the cell that had the keyboard is gone, the one that is chosen now gets it. */
  protected override updated(): void {
    if (this.#hadKeyboard && this.shadowRoot?.activeElement === null) this.focusChosen();
  }

  /** Brings what has the keyboard back into sight, where the desk came up over it. */
  keepFocusInSight(): void {
    let focused: Element | null =
      this.renderRoot instanceof ShadowRoot ? this.renderRoot.activeElement : null;
    while (focused?.shadowRoot?.activeElement) focused = focused.shadowRoot.activeElement;
    bringIntoSight(focused ?? undefined, "nearest");
  }

  /** Puts the keyboard on the chosen cell. */
  focusChosen(): void {
    if (this.book.chosen !== undefined) this.#goToCell(this.book.chosen);
  }

  #block(block: BlockView): TemplateResult {
    if (block.type !== "row") {
      const level = block.type === "heading" ? block.level : 0;
      return html`<prose-block tabindex="-1" .text=${block.text} .level=${level}></prose-block>`;
    }
    const views = block.cells.map((name) => this.book.cells.get(name));
    return html`<div class="row" style="--widths: ${rowWidths(views, this.#resize.widths)}">
      ${repeat(
        views.filter((view) => view !== undefined),
        (view) => view.name,
        (view) => this.#cell(view),
      )}
    </div>`;
  }

  #cell(view: CellView): TemplateResult {
    const { chosen, picked, dark } = this.book;
    const isChosen = view.name === chosen;
    return html`<sheet-cell
      role="article"
      tabindex=${view.name === this.#stop() ? 0 : -1}
      aria-label="${view.name}, ${view.nature}${
        view.status === "current" ? "" : `, ${labels.status[view.status]}`
      }"
      aria-current=${isChosen ? "true" : nothing}
      ?chosen=${isChosen}
      .view=${view}
      .picked=${picked?.cell === view.name ? picked.key : ""}
      .dark=${dark}
      .stopped=${this.book.progress?.stopped === true}
    ></sheet-cell>`;
  }

  /** The cell that Tab comes to. */
  #stop(): string | undefined {
    return this.book.chosen ?? cellOrder(this.book.notebook)[0];
  }

  #dropLine(): TemplateResult | typeof nothing {
    const { line } = this.#drag;
    if (line === undefined) return nothing;
    const [width, height] = [line.right - line.left, line.bottom - line.top];
    const place = `left:${line.left}px;top:${line.top}px;width:${width}px;height:${height}px`;
    return html`<div class="drop" style=${place}></div>`;
  }

  #cells(): readonly (HTMLElement & { view: CellView })[] {
    return [...this.renderRoot.querySelectorAll("sheet-cell")];
  }

  #cellNamed(name: string | undefined): (HTMLElement & { view: CellView }) | undefined {
    return this.#cells().find((cell) => cell.view.name === name);
  }

  #cellAt(x: number, y: number): CellUnder | undefined {
    const root = this.renderRoot as ShadowRoot;
    const cell = root.elementFromPoint(x, y)?.closest("sheet-cell");
    const row = cell?.parentElement;
    if (!cell || !row) return undefined;
    const [box, rowBox] = [cell.getBoundingClientRect(), row.getBoundingClientRect()];
    return { name: cell.view.name, box, row: rowBox };
  }

  /** Goes with the keyboard where it is led, else back to the chosen cell, or the first. */
  #go(way: WayTo | null): void {
    const cell = way === null ? this.#stop() : way.cell;
    if (cell !== undefined) this.#goToCell(cell);
    if (cell !== undefined || way === null) return;
    this.#look(way);
    this.#blockAt(way.block)?.focus({ preventScroll: true });
  }

  #goToCell(name: string): void {
    const cell = this.#cellNamed(name);
    cell?.focus({ preventScroll: true });
    bringIntoSight(cell, "nearest");
  }

  /** Brings something into sight; the keyboard stays where it is. */
  #look({ block, cell }: WayTo): void {
    if (cell !== undefined) send(this, { act: "choose", cell });
    const at = cell === undefined ? this.#blockAt(block) : this.#cellNamed(cell);
    bringIntoSight(at, cell === undefined ? "start" : "nearest");
  }

  #blockAt(block: number): HTMLElement | undefined {
    return [...this.renderRoot.querySelectorAll<HTMLElement>(".row, prose-block")][block];
  }

  #focused(event: FocusEvent): void {
    const cell = (event.target as Element).closest("sheet-cell");
    if (cell !== null && !this.#isPressed) send(this, { act: "choose", cell: cell.view.name });
  }

  /** What is pressed stays where it is until its click is over; only then may the desk open. */
  #pressed(event: PointerEvent): void {
    const cell = (event.target as Element).closest("sheet-cell");
    this.#isPressed = true;
    whenPressed((how) => {
      this.#isPressed = false;
      if (cell !== null && how === "pressed") send(this, { act: "choose", cell: cell.view.name });
    });
    const [pressed] = event.composedPath();
    if (cell === null || !(pressed instanceof Element)) return;
    if (pressed.closest("[data-handle]") !== null) this.#drag.begin(cell.view.name, event);
    if (pressed.closest("[data-edge]") !== null) this.#beginResize(cell, event);
  }

  #beginResize(cell: HTMLElement & { view: CellView }, event: PointerEvent): void {
    const row = cell.parentElement;
    if (row === null) return;
    const [box, rowBox] = [cell.getBoundingClientRect(), row.getBoundingClientRect()];
    this.#resize.begin({ cell: cell.view.name, box, row: rowBox }, event);
  }

  /** The cells of the row that a cell stands in. */
  #rowOf(name: string): readonly CellView[] {
    const row = rowsOf(this.book.notebook).find((names) => names.includes(name)) ?? [];
    return row.flatMap((each) => this.book.cells.get(each) ?? []);
  }

  #key(event: KeyboardEvent): void {
    const cell = (event.target as Element).closest("sheet-cell");
    if (cell === null) this.#proseKey(event);
    if (event.key === "Escape") cell?.focus();
    if (cell === null || event.composedPath()[0] !== cell) return;
    const { name } = cell.view;
    const sideways = ["ArrowLeft", "ArrowRight"].indexOf(event.key);
    if (isCopy(event)) send(this, { act: "copy answer", cell: name });
    else if (event.ctrlKey || event.metaKey) return;
    else if (event.altKey && event.shiftKey) {
      if (sideways < 0) return;
      this.#resizeBy(name, sideways === 0 ? -1 : 1);
    } else if (event.altKey && moves.includes(event.key)) this.#moveBy(name, event.key as MoveKey);
    else if (event.altKey) return;
    else if (event.key === "Enter") send(this, { act: "choose", cell: name, enter: true });
    else if (event.key === "/") this.guide?.enter();
    else if (steps.includes(event.key)) this.#step(cell, event.key);
    else return;
    event.preventDefault();
  }

  /** From a heading or other prose the keys lead on into the cells. */
  #proseKey(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "/") this.guide?.enter();
    else if (event.key === "Escape" || event.key === "Home") this.#go(null);
    else return;
    event.preventDefault();
  }

  #moveBy(cell: string, key: MoveKey): void {
    const way = labels.moveTo[key];
    const to = placeBy(key, cell, rowsOf(this.book.notebook));
    this.said = to === undefined ? labels.cannotMove(cell, way) : labels.moved(cell, way);
    if (to !== undefined) this.#move(cell, to);
  }

  #resizeBy(cell: string, by: number): void {
    const row = this.#rowOf(cell);
    const columns = (rowColumns(row)[row.findIndex(({ name }) => name === cell)] ?? 0) + by;
    const widths: Widths = resized(row, cell, columns);
    this.said = widths.size === 0 ? labels.cannotResize(cell) : labels.resizedTo(cell, columns);
    if (widths.size > 0) send(this, resizeAct(cell, widths));
  }

  #move(cell: string, to: CellPlace): void {
    send(this, { act: "change", request: { ask: "move cell", cell, to } });
  }

  #step(from: HTMLElement & { view: CellView }, key: string): void {
    const cells = this.#cells();
    const ends = { Home: cells[0], End: cells.at(-1) };
    const next =
      key === "Home" || key === "End"
        ? ends[key]
        : this.#cellNamed(stepFrom(placedAround(from), from.view.name, key));
    next?.focus({ preventScroll: true });
    bringIntoSight(next, "nearest");
  }
}

/** Ctrl+C where no text is marked: then the cell is meant. */
function isCopy(event: KeyboardEvent): boolean {
  if (!(event.ctrlKey || event.metaKey) || event.shiftKey || event.altKey) return false;
  return event.key.toLowerCase() === "c" && window.getSelection()?.isCollapsed !== false;
}

function blockKey(block: BlockView, position: number): string {
  return block.type === "row" ? `row ${block.cells[0]}` : `${block.type} ${position}`;
}

declare global {
  interface HTMLElementTagNameMap {
    "sheet-leaf": SheetLeaf;
  }
}
