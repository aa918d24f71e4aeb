import { describe, expect, it } from "vitest";
import { WorkerHost } from "../../src/page/host/worker-host.ts";
import type { News, Posted, Returned } from "../../src/page/protocol.ts";

/** A worker that keeps what was posted to it, to be answered by the test. */
class StillWorker {
  readonly posted: Posted[] = [];
  onmessage: ((event: MessageEvent<Returned>) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  onmessageerror: (() => void) | null = null;

  postMessage(message: Posted): void {
    this.posted.push(message);
  }

  answer(returned: Returned): void {
    this.onmessage?.({ data: returned } as MessageEvent<Returned>);
  }
}

function hostOf() {
  const worker = new StillWorker();
  const news: News[] = [];
  const host = new WorkerHost(worker as unknown as Worker);
  host.listen((heard) => news.push(heard));
  return { worker, host, news };
}

describe("the host in a worker", () => {
  it("gives each request its own reply, in whatever order they come", async () => {
    const { worker, host } = hostOf();
    const first = host.ask({ ask: "notebook text" });
    const second = host.ask({ ask: "undo" });
    worker.answer({ id: worker.posted[1]!.id, reply: { problems: [] } });
    worker.answer({ id: worker.posted[0]!.id, reply: { name: "a.md", text: "a" } });
    expect(await first).toEqual({ name: "a.md", text: "a" });
    expect(await second).toEqual({ problems: [] });
  });

  it("rejects where the worker broke on the request", async () => {
    const { worker, host } = hostOf();
    const asked = host.ask({ ask: "redo" });
    worker.answer({ id: worker.posted[0]!.id, broken: "no such thing" });
    await expect(asked).rejects.toThrow("no such thing");
  });

  it("passes news on, and errors outside any request", () => {
    const { worker, news } = hostOf();
    const told: News = { tell: "progress", progress: { doing: "Reading", finished: true } };
    worker.answer(told);
    worker.onerror?.({ message: "no memory" } as ErrorEvent);
    worker.onmessageerror?.();
    expect(news).toEqual([
      told,
      { tell: "broken", message: "no memory" },
      { tell: "broken", message: "a message could not be read" },
    ]);
  });
});
