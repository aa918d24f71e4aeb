import type { News, Replies, Request } from "../protocol.ts";

/** Whoever holds the notebook: the worker, or a stand-in of the tests. */
export interface Host {
  ask<R extends Request>(request: R): Promise<Replies[R["ask"]]>;
  /** From now on, `hear` gets all news. */
  listen(hear: (news: News) => void): void;
}
