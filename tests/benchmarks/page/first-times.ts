import { pathToFileURL } from "node:url";
import type { Browser } from "playwright-core";
import { cell } from "../../browser/opened-page.ts";

export interface FirstTimes {
  /** Milliseconds from the start of loading to the first content painted. */
  readonly paint: number;
  /** Milliseconds from the start of loading to the first answer of the demo. */
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
    await page.goto(pathToFileURL(file).href, { waitUntil: "commit" });
    await cell(page, "how_often").locator("answer-sentence").waitFor();
    measured.push(
      await page.evaluate(() => ({
        answer: performance.now(),
        paint: performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? Number.NaN,
      })),
    );
    await context.close();
  }
  return measured;
}
