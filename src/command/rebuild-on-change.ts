/** Does something a little later, unless called off; what it gives back calls it off. */
export type Later = (act: () => void) => () => void;

export interface Rebuilding {
  /** To be called at every sign of a change; signs that come close together are one. */
  changed(): void;
  /** Nothing begins after this; resolves when what has begun is done. */
  stop(): Promise<void>;
}

/**
 * Rebuilds once things are quiet again after a change, never twice at the same time; a change
 * during a rebuild leads to another one after it.
 */
export function rebuildOnChange(rebuild: () => Promise<void>, later: Later): Rebuilding {
  let callOff = (): void => {};
  let isStopped = false;
  let running = Promise.resolve();
  return {
    changed: () => {
      callOff();
      callOff = later(() => {
        running = running.then(() => (isStopped ? undefined : rebuild()));
      });
    },
    stop: () => {
      isStopped = true;
      callOff();
      return running;
    },
  };
}
