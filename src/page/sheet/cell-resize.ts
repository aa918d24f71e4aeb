import type { ReactiveController, ReactiveControllerHost } from "lit";
import { columnsOfRow } from "../../notebook/cell-width.ts";
import type { Box } from "./drop-place.ts";
import { followPointer } from "./pointer-course.ts";
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
  #unfollow = (): void => {};

  constructor(host: ReactiveControllerHost, ground: ResizeGround) {
    this.#host = host;
    this.#ground = ground;
    host.addController(this);
  }

  hostConnected(): void {}

  hostDisconnected(): void {
    this.#unfollow();
    this.widths = new Map();
  }

  begin({ cell, box, row }: Resizing, event: PointerEvent): void {
    if (event.button !== 0) return;
    event.preventDefault();
    const column = (row.right - row.left) / columnsOfRow;
    this.#unfollow = followPointer({
      travel: ({ clientX }) =>
        this.#become(this.#ground.widths(cell, (clientX - box.left) / column)),
      letGo: () => this.#letGo(cell),
      leave: () => this.#become(new Map()),
    });
  }

  #letGo(cell: string): void {
    const { widths } = this;
    this.#become(new Map());
    if (widths.size > 0) this.#ground.resize(cell, widths);
  }

  #become(widths: Widths): void {
    this.widths = widths;
    this.#host.requestUpdate();
  }
}
