import type { ReactiveController, ReactiveControllerHost } from "lit";
import { columnsOfRow } from "../../notebook/cell-width.ts";
import type { Box } from "./drop-place.ts";
import type { Widths } from "./row-widths.ts";

export interface ResizeGround {
  /** What the cells of its row are given when the cell becomes so many columns wide. */
  widths(cell: string, columns: number): Widths;
  resize(cell: string, widths: Widths): void;
}

interface Resizing {
  readonly cell: string;
  readonly box: Box;
  readonly row: Box;
}

/** Makes a cell wider or narrower by the pointer: its edge is drawn along the columns of its row. */
export class CellResize implements ReactiveController {
  /** What the cells of the row are given while the pointer is down. */
  widths: Widths = new Map();
  readonly #host: ReactiveControllerHost;
  readonly #ground: ResizeGround;
  #resizing: Resizing | undefined;

  constructor(host: ReactiveControllerHost, ground: ResizeGround) {
    this.#host = host;
    this.#ground = ground;
    host.addController(this);
  }

  hostConnected(): void {}

  hostDisconnected(): void {
    this.#end();
  }

  begin(resizing: Resizing, event: PointerEvent): void {
    if (event.button !== 0) return;
    event.preventDefault();
    this.#resizing = resizing;
    window.addEventListener("pointermove", this.#travel);
    window.addEventListener("pointerup", this.#letGo);
    window.addEventListener("pointercancel", this.#cancel);
    window.addEventListener("keydown", this.#key, true);
  }

  readonly #travel = (event: PointerEvent): void => {
    if (this.#resizing === undefined) return;
    const { cell, box, row } = this.#resizing;
    const column = (row.right - row.left) / columnsOfRow;
    this.widths = this.#ground.widths(cell, (event.clientX - box.left) / column);
    this.#host.requestUpdate();
  };

  readonly #letGo = (): void => {
    const { widths } = this;
    const cell = this.#resizing?.cell;
    this.#end();
    if (cell !== undefined && widths.size > 0) this.#ground.resize(cell, widths);
  };

  readonly #cancel = (): void => this.#end();

  readonly #key = (event: KeyboardEvent): void => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    this.#end();
  };

  #end(): void {
    if (this.#resizing === undefined) return;
    this.#resizing = undefined;
    this.widths = new Map();
    window.removeEventListener("pointermove", this.#travel);
    window.removeEventListener("pointerup", this.#letGo);
    window.removeEventListener("pointercancel", this.#cancel);
    window.removeEventListener("keydown", this.#key, true);
    this.#host.requestUpdate();
  }
}
