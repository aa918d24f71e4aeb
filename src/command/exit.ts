/** 0: all worked out; 1: written, but a cell has no answer; 2: nothing was written. */
export type Exit = 0 | 1 | 2;

/** Where the command speaks: what was asked for goes to `say`, everything else to `warn`. */
export interface Speaker {
  say(text: string): void;
  warn(text: string): void;
  /** Progress is shown only to a person. */
  readonly isTerminal: boolean;
}
