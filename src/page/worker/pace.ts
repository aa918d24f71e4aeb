/** Milliseconds of work between two breaths; the first comes sooner, for what stands on top. */
const stride = 40;
const firstStride = 16;

/**
 * Lets long work breathe, so that the worker hears what the reader asks meanwhile, and holds it
 * where the reader stops it. The clock decides when, never what.
 */
export class Pace {
  /** Called at every breath. */
  onBreath: () => void = () => {};
  #since = performance.now();
  #stride = firstStride;
  #isHeld = false;
  #isDue = false;
  #waiting: (() => void)[] = [];
  #halted: (() => void)[] = [];

  /** Nothing where the work may go on at once; else what it has to wait for. */
  turn(): Promise<void> | undefined {
    if (!this.#isHeld && performance.now() - this.#since < this.#stride) return undefined;
    return new Promise((go) => {
      this.#waiting.push(go);
      this.#schedule();
    });
  }

  /** New work begins. */
  begin(): void {
    this.#since = performance.now();
    this.#stride = firstStride;
  }

  /** Holds the work from its next turn on. */
  stop(): void {
    this.#isHeld = true;
    for (const halt of this.#halted.splice(0)) halt();
  }

  goOn(): void {
    this.#isHeld = false;
    if (this.#waiting.length > 0) this.#schedule();
  }

  /** When the work is stopped. */
  halted(): Promise<void> {
    return new Promise((halt) => this.#halted.push(halt));
  }

  #schedule(): void {
    if (this.#isDue || this.#isHeld) return;
    this.#isDue = true;
    setTimeout(() => this.#breathe());
  }

  #breathe(): void {
    this.#isDue = false;
    if (this.#isHeld) return;
    this.onBreath();
    this.#since = performance.now();
    this.#stride = stride;
    for (const go of this.#waiting.splice(0)) go();
  }
}
