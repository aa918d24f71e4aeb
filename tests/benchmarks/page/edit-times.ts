import type { Page } from "playwright-core";
import { cell, settled } from "../../browser/opened-page.ts";

/**
 * Milliseconds from a press on a choice of the cell `window` until the sentence of `rate_1`, which
 * follows from it, reads otherwise and has been painted.
 */
export async function editTimes(page: Page, times: number): Promise<readonly number[]> {
  const measured: number[] = [];
  const choices = cell(page, "window").locator("input[type=radio]");
  for (let i = 0; i < times; i++) {
    const choice = await choices.nth(i % 2).elementHandle();
    const answer = await cell(page, "rate_1").locator("answer-sentence").elementHandle();
    measured.push(
      await page.evaluate(
        async ([input, shown]) => {
          const said = () => shown?.shadowRoot?.textContent;
          const before = said();
          const start = performance.now();
          (input as HTMLElement).click();
          while (said() === before && performance.now() - start < 10_000) {
            await new Promise(requestAnimationFrame);
          }
          if (said() === before) throw new Error("the answer did not change");
          await new Promise(requestAnimationFrame);
          return performance.now() - start;
        },
        [choice, answer] as const,
      ),
    );
    await settled(page);
  }
  return measured;
}
