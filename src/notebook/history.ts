/** One act that can be undone: its name for the buttons, and what was there after it. */
interface Act<State> {
  readonly name: string;
  readonly state: State;
}

/**
 * States of the notebook, one after another, each made by a named act. Undo and redo reach every
 * act but the oldest ones, which are let go beyond `most`.
 */
export class History<State> {
  #past: Act<State>[];
  #future: Act<State>[] = [];
  readonly #most: number;

  constructor(state: State, most = 500) {
    this.#past = [{ name: "", state }];
    this.#most = most;
  }

  /** What is there now. */
  get state(): State {
    return this.#past.at(-1)!.state;
  }

  /** The act that `undo` would take back, or undefined. */
  get undoName(): string | undefined {
    return this.#past.length > 1 ? this.#past.at(-1)!.name : undefined;
  }

  /** The act that `redo` would do again, or undefined. */
  get redoName(): string | undefined {
    return this.#future.at(-1)?.name;
  }

  /** Does an act. What had been undone can no longer be done again. */
  act(name: string, state: State): void {
    this.#past.push({ name, state });
    if (this.#past.length > this.#most + 1) this.#past.shift();
    this.#future = [];
  }

  /** Takes the last act back; false where there is none. */
  undo(): boolean {
    if (this.#past.length < 2) return false;
    this.#future.push(this.#past.pop()!);
    return true;
  }

  /** Does the act again that was undone last; false where there is none. */
  redo(): boolean {
    const act = this.#future.pop();
    if (act === undefined) return false;
    this.#past.push(act);
    return true;
  }
}
