import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { CellPlace } from "../protocol.ts";
import { type Box, dropLine, dropPlace } from "./drop-place.ts";

/** Pixels that the pointer travels before a press becomes a drag. */
const leastTravel = 6;

export interface CellUnder {
  readonly name: string;
  readonly box: Box;
  readonly row: Box;
}

export interface DragGround {
  /** The cell at a point of the window. */
  cellAt(x: number, y: number): CellUnder | undefined;
  move(cell: string, to: CellPlace): void;
}

interface Drag {
  readonly cell: string;
  readonly x: number;
  readonly y: number;
  readonly under?: CellUnder;
  readonly to?: CellPlace;
}

/** Moves a cell by the pointer: pressed on its name, let go beside another cell. */
export class CellDrag implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  readonly #ground: DragGround;
  #drag: Drag | undefined;

  constructor(host: ReactiveControllerHost, ground: DragGround) {
    this.#host = host;
    this.#ground = ground;
    host.addController(this);
  }

  hostConnected(): void {}

  hostDisconnected(): void {
    this.#end();
  }

  /** Where the cell would go in if it were let go now. */
  get line(): Box | undefined {
    const { under, to } = this.#drag ?? {};
    return under === undefined || to === undefined ? undefined : dropLine(under.box, under.row, to);
  }

  begin(cell: string, event: PointerEvent): void {
    if (event.button !== 0) return;
    this.#drag = { cell, x: event.clientX, y: event.clientY };
    window.addEventListener("pointermove", this.#travel);
    window.addEventListener("pointerup", this.#letGo);
    window.addEventListener("pointercancel", this.#cancel);
    window.addEventListener("keydown", this.#key, true);
  }

  readonly #travel = (event: PointerEvent): void => {
    const drag = this.#drag;
    if (drag === undefined) return;
    const travelled = Math.hypot(event.clientX - drag.x, event.clientY - drag.y);
    if (drag.to === undefined && travelled < leastTravel) return;
    event.preventDefault();
    this.#drag = this.#over(drag, event.clientX, event.clientY);
    this.#host.requestUpdate();
  };

  #over({ cell, x, y }: Drag, atX: number, atY: number): Drag {
    const under = this.#ground.cellAt(atX, atY);
    if (under === undefined || under.name === cell) return { cell, x, y };
    const to = { beside: under.name, ...dropPlace(under.box, { x: atX, y: atY }) };
    return { cell, x, y, under, to };
  }

  readonly #letGo = (): void => {
    const drag = this.#drag;
    this.#end();
    if (drag?.to !== undefined) this.#ground.move(drag.cell, drag.to);
  };

  readonly #cancel = (): void => this.#end();

  readonly #key = (event: KeyboardEvent): void => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    this.#end();
  };

  #end(): void {
    if (this.#drag === undefined) return;
    this.#drag = undefined;
    window.removeEventListener("pointermove", this.#travel);
    window.removeEventListener("pointerup", this.#letGo);
    window.removeEventListener("pointercancel", this.#cancel);
    window.removeEventListener("keydown", this.#key, true);
    this.#host.requestUpdate();
  }
}
