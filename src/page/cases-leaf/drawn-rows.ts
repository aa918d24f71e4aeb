import {
  defaultRangeExtractor,
  elementScroll,
  observeElementOffset,
  observeElementRect,
  type Range,
  type VirtualItem,
  Virtualizer,
} from "@tanstack/virtual-core";
import type { ReactiveController, ReactiveControllerHost } from "lit";
import { textScale } from "../look/text-scale.ts";
import type { GridPlace } from "./grid-place.ts";
import { withOwn } from "./with-own.ts";

/** Pixels of a row: they grow with the text. */
export function rowHeight(): number {
  return 27 * textScale();
}

/** Rows drawn at most, whatever the layout says. */
const mostDrawn = 150;

/** The grid, as far as knowing what is in sight needs it. */
interface Scrolled extends ReactiveControllerHost {
  readonly grid: HTMLElement;
  readonly at: GridPlace;
  readonly rowCount: number;
}

/** The rows that are drawn: those in sight, a few to each side, and the one that has focus. */
export class DrawnRows implements ReactiveController {
  readonly #grid: Scrolled;
  #virtualizer: Virtualizer<HTMLElement, HTMLElement> | undefined;
  #unmount: (() => void) | undefined;

  constructor(grid: Scrolled) {
    this.#grid = grid;
    grid.addController(this);
  }

  get items(): readonly VirtualItem[] {
    return (this.#virtualizer?.getVirtualItems() ?? []).slice(0, mostDrawn);
  }

  /** Rows that fit into the grid at once. */
  get inSight(): number {
    return Math.floor(this.#grid.grid.clientHeight / rowHeight());
  }

  /** Brings a row into sight, counted from 0. */
  show(row: number): void {
    this.#virtualizer?.scrollToIndex(row, { align: "auto" });
  }

  hostUpdated(): void {
    const options = this.#options();
    if (this.#virtualizer === undefined) {
      this.#virtualizer = new Virtualizer(options);
      this.#unmount = this.#virtualizer._didMount();
    } else this.#virtualizer.setOptions(options);
    this.#virtualizer._willUpdate();
  }

  hostDisconnected(): void {
    this.#unmount?.();
    this.#virtualizer = undefined;
  }

  #options() {
    return {
      count: this.#grid.rowCount,
      getScrollElement: () => this.#grid.grid,
      estimateSize: rowHeight,
      overscan: 6,
      scrollMargin: 0,
      observeElementRect,
      observeElementOffset,
      scrollToFn: elementScroll,
      rangeExtractor: (range: Range) => this.#drawn(range),
      onChange: () => this.#grid.requestUpdate(),
    };
  }

  /** The row that has focus is drawn wherever it is, so that the keyboard does not lose it. */
  #drawn(range: Range): number[] {
    const inSight = defaultRangeExtractor(range).slice(0, mostDrawn - 1);
    return withOwn(inSight, Math.min(this.#grid.at.row, range.count) - 1);
  }
}
