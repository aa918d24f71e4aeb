import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { CellPlace } from "../protocol.ts";
import { type Box, dropLine, dropPlace } from "./drop-place.ts";
import { followPointer } from "./pointer-course.ts";

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
  #unfollow = (): void => {};

  constructor(host: ReactiveControllerHost, ground: DragGround) {
    this.#host = host;
    this.#ground = ground;
    host.addController(this);
  }

  hostConnected(): void {}

  hostDisconnected(): void {
    this.#unfollow();
    this.#drag = undefined;
  }

  /** Where the cell would go in if it were let go now. */
  get line(): Box | undefined {
    const { under, to } = this.#drag ?? {};
    return under === undefined || to === undefined ? undefined : dropLine(under.box, under.row, to);
  }

  begin(cell: string, event: PointerEvent): void {
    if (event.button !== 0) return;
    this.#become({ cell, x: event.clientX, y: event.clientY });
    this.#unfollow = followPointer({
      travel: (at) => this.#travel(at),
      letGo: () => this.#letGo(),
      leave: () => this.#become(undefined),
    });
  }

  #travel(event: PointerEvent): void {
    const drag = this.#drag;
    if (drag === undefined) return;
    const travelled = Math.hypot(event.clientX - drag.x, event.clientY - drag.y);
    if (drag.to === undefined && travelled < leastTravel) return;
    event.preventDefault();
    this.#become(this.#over(drag, event.clientX, event.clientY));
  }

  #over({ cell, x, y }: Drag, atX: number, atY: number): Drag {
    const under = this.#ground.cellAt(atX, atY);
    if (under === undefined || under.name === cell) return { cell, x, y };
    const to = { beside: under.name, ...dropPlace(under.box, { x: atX, y: atY }) };
    return { cell, x, y, under, to };
  }

  #letGo(): void {
    const drag = this.#drag;
    this.#become(undefined);
    if (drag?.to !== undefined) this.#ground.move(drag.cell, drag.to);
  }

  #become(drag: Drag | undefined): void {
    this.#drag = drag;
    this.#host.requestUpdate();
  }
}
