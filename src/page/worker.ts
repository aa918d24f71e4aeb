import type { Posted, Returned } from "./protocol.ts";
import { localDay } from "./worker/local-day.ts";
import { SheetHost } from "./worker/sheet-host.ts";

/**
 * The worker that holds the notebook, its cases and its sheet, so that the page never freezes.
 * An error here is our own bug: it goes to the page, which shows it.
 */
const post = (returned: Returned): void => self.postMessage(returned);

/** The one place where the page reads a clock: days after today are queried. */
const host = new SheetHost(post, localDay(new Date()));

self.onmessage = async ({ data }: MessageEvent<Posted>): Promise<void> => {
  try {
    post({ id: data.id, reply: await host.answer(data.request) });
  } catch (error) {
    post({ id: data.id, broken: messageOf(error) });
  }
};

self.addEventListener("unhandledrejection", ({ reason }) => {
  post({ tell: "broken", message: messageOf(reason) });
});

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
