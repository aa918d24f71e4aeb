import { pathToFileURL } from "node:url";
import type { Browser } from "playwright-core";
import { cell } from "../../browser/opened-page.ts";

export interface FirstTimes {
  /** Milliseconds from the start of loading to the first content painted. */
  readonly paint: number;
  /** Milliseconds from the start of loading to the first answer of the demo, painted. */
  readonly answer: number;
}

/** Opens the page in a fresh context, so many times. */
export async function firstTimes(
  browser: Browser,
  file: string,
  times: number,
): Promise<readonly FirstTimes[]> {
  const measured: FirstTimes[] = [];
  for (let i = 0; i < times; i++) {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    const page = await context.newPage();
    await page.addInitScript(watchForAnswer);
    await page.goto(pathToFileURL(file).href, { waitUntil: "commit" });
    await cell(page, "how_often").locator("answer-sentence").waitFor();
    measured.push(
      await page.evaluate(() => ({
        answer: performance.getEntriesByName("first answer")[0]?.startTime ?? Number.NaN,
        paint: performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? Number.NaN,
      })),
    );
    await context.close();
  }
  return measured;
}

/** Runs in the page before it: marks when the first answer has been painted, frame by frame. */
function watchForAnswer(): void {
  const inside = (root: ParentNode | null | undefined, tag: string) => root?.querySelector(tag);
  const isAnswered = (): boolean => {
    const sheet = inside(inside(document, "holdfast-book")?.shadowRoot, "sheet-leaf");
    const answered = inside(sheet?.shadowRoot, 'sheet-cell[aria-label^="how_often, "]');
    const answer = inside(answered?.shadowRoot, "cell-answer");
    const sentence = inside(answer?.shadowRoot, "answer-sentence");
    return Boolean(sentence?.shadowRoot?.textContent?.trim());
  };
  const look = (): void => {
    if (!isAnswered()) return void requestAnimationFrame(look);
    // a message that is sent before a frame is painted arrives when it has been
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => performance.mark("first answer");
    port2.postMessage(0);
  };
  requestAnimationFrame(look);
}
