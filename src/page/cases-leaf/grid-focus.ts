import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { GridPlace } from "./grid-place.ts";

/** The grid, as far as keeping the keyboard in it needs it. */
interface Focused extends ReactiveControllerHost {
  readonly shadowRoot: ShadowRoot | null;
  readonly at: GridPlace;
}

/**
 * Keeps the keyboard at its place while the cells are drawn anew. Drawing uses elements again for
 * other cells and takes some away, so that the place gets the keyboard back before anything more
 * can be typed; the grid itself holds it where the cell is not drawn yet.
 */
export class GridFocus implements ReactiveController {
  readonly #grid: Focused;
  #isHeld = false;

  constructor(grid: Focused) {
    this.#grid = grid;
    grid.addController(this);
  }

  hostUpdate(): void {
    this.#isHeld = this.#grid.shadowRoot?.activeElement?.closest(".grid") instanceof Element;
  }

  hostUpdated(): void {
    if (this.#isHeld) this.take();
  }

  take(): void {
    const { shadowRoot: root, at } = this.#grid;
    const cell = root?.querySelector<HTMLElement>(`[data-place="${at.row} ${at.column}"]`);
    (cell ?? root?.querySelector<HTMLElement>(".grid"))?.focus({ preventScroll: true });
  }
}
