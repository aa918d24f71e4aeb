/** How far the reader can undo: their own acts, but not the opening of the demo. */
export class UndoFloor {
  #acts = 0;
  #floor = 0;

  /** A request changed something. */
  count(ask: string): void {
    this.#acts += ask === "undo" ? -1 : 1;
  }

  /** What was done so far is where the reader begins. */
  begin(): void {
    this.#floor = this.#acts;
  }

  get canUndo(): boolean {
    return this.#acts > this.#floor;
  }
}
