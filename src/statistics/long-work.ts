/** What a computation has to wait for before it goes on; nothing where it may go on at once. */
export type Pause = () => Promise<void> | undefined;

interface Attempt {
  readonly pause: Pause;
  /** What long parts of the computation have done so far, in the order in which they are met. */
  readonly kept: unknown[];
  at: number;
}

/** Thrown by a long part that is to pause; whoever catches an error must let it through. */
export class Interruption extends Error {
  readonly wait: Promise<void>;

  constructor(wait: Promise<void>) {
    super("a computation was interrupted outside of what can take it up again");
    this.wait = wait;
  }
}

let running: Attempt | undefined;

/**
 * Computes what may take long in pieces. A long part that is to pause ends the attempt; after the
 * wait the computation is tried again from its beginning, and its long parts go on from where they
 * were. The result is that of one go, since the computation depends on nothing but its arguments.
 */
export function inPieces<Result>(compute: () => Result, pause: Pause): Result | Promise<Result> {
  return attempt(compute, { pause, kept: [], at: 0 });
}

function attempt<Result>(compute: () => Result, mine: Attempt): Result | Promise<Result> {
  const outer = running;
  running = mine;
  mine.at = 0;
  try {
    return compute();
  } catch (error) {
    if (!(error instanceof Interruption)) throw error;
    return error.wait.then(() => attempt(compute, mine));
  } finally {
    running = outer;
  }
}

/** What a long part has done: as the attempt before left it, or as it starts. */
export function keptOver<State extends object>(start: () => State): State {
  if (running === undefined) return start();
  const at = running.at++;
  running.kept[at] ??= start();
  return running.kept[at] as State;
}

/** Where a long part may be interrupted: all it has done is in what it keeps. */
export function mayPause(): void {
  const wait = running?.pause();
  if (wait !== undefined) throw new Interruption(wait);
}
