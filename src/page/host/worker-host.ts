import type { News, Replies, Request, Returned } from "../protocol.ts";
import type { Host } from "./host.ts";

interface Waiting {
  readonly settle: (reply: never) => void;
  readonly fail: (error: Error) => void;
}

/** The host in a worker: requests are numbered, replies find the request that waits for them. */
export class WorkerHost implements Host {
  readonly #worker: Worker;
  readonly #waiting = new Map<number, Waiting>();
  #hear: (news: News) => void = () => {};
  #next = 1;

  constructor(worker: Worker) {
    this.#worker = worker;
    worker.onmessage = (event: MessageEvent<Returned>) => this.#take(event.data);
    worker.onerror = (event) => this.#hear({ tell: "broken", message: event.message });
    worker.onmessageerror = () =>
      this.#hear({ tell: "broken", message: "a message could not be read" });
  }

  ask<R extends Request>(request: R): Promise<Replies[R["ask"]]> {
    const id = this.#next++;
    return new Promise((settle, fail) => {
      this.#waiting.set(id, { settle, fail });
      this.#worker.postMessage({ id, request });
    });
  }

  listen(hear: (news: News) => void): void {
    this.#hear = hear;
  }

  #take(returned: Returned): void {
    if ("tell" in returned) {
      this.#hear(returned);
      return;
    }
    const waiting = this.#waiting.get(returned.id);
    this.#waiting.delete(returned.id);
    if ("broken" in returned) waiting?.fail(new Error(returned.broken));
    else waiting?.settle(returned.reply as never);
  }
}
