interface Ready {
  readonly place: () => number;
  readonly run: () => Promise<void>;
}

/**
 * Computations that may begin, taken one at a time in the order of their places: a sheet is worked
 * out from its top, whatever order the runtime finds its cells in.
 */
export class ReadyQueue {
  readonly #ready: Ready[] = [];
  #isAtWork = false;

  /** The outcome of a computation, once its turn has come. `place` is asked when one is chosen. */
  take<Outcome>(place: () => number, compute: () => Outcome | Promise<Outcome>): Promise<Outcome> {
    return new Promise((resolve, reject) => {
      const run = async (): Promise<void> => {
        try {
          resolve(await compute());
        } catch (error) {
          reject(error);
        }
      };
      this.#ready.push({ place, run });
      this.#begin();
    });
  }

  /** All that became ready with the first is there once the microtasks before this one have run. */
  #begin(): void {
    if (this.#isAtWork) return;
    this.#isAtWork = true;
    queueMicrotask(() => void this.#work());
  }

  async #work(): Promise<void> {
    for (let next = this.#first(); next !== undefined; next = this.#first()) await next.run();
    this.#isAtWork = false;
  }

  #first(): Ready | undefined {
    let first = 0;
    for (let i = 1; i < this.#ready.length; i++) {
      if (this.#ready[i]!.place() < this.#ready[first]!.place()) first = i;
    }
    return this.#ready.splice(first, 1)[0];
  }
}
