/** 0: all worked out; 1: written, but a cell has no answer or there is no PDF; 2: nothing was written. */
export type Exit = 0 | 1 | 2;

/** What the command knows of the world: where to speak, and what day it is. */
export interface Surroundings {
  /** What was asked for goes to `say`, everything else to `warn`. */
  say(text: string): void;
  warn(text: string): void;
  /** Progress is shown only to a person. */
  readonly isTerminal: boolean;
  /** Whole days since 1970-01-01: a later day in a file has not come yet. */
  readonly today: number;
  /** Resolves when the reader ends what would go on by itself; absent where nothing can be ended. */
  whenStopped?(): Promise<void>;
}
