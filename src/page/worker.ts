import { dayNumber } from "../formula/calendar.ts";
import type { Posted, Returned } from "./protocol.ts";
import { SheetHost } from "./worker/sheet-host.ts";

/**
 * The worker that holds the notebook, its cases and its sheet, so that the page never freezes.
 * An error here is our own bug: it goes to the page, which shows it.
 */
const post = (returned: Returned): void => self.postMessage(returned);

const host = new SheetHost(post, today());

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

/** The reader's own day: the one place where a clock is read, to query dates in the future. */
function today(): number {
  const now = new Date();
  return dayNumber({ year: now.getFullYear(), month: now.getMonth() + 1, day: now.getDate() });
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
