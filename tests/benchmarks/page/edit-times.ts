import type { Page } from "playwright-core";
import { cell, settled } from "../../browser/opened-page.ts";

/** Milliseconds from a press until what follows from it has been painted. */
export interface EditTimes {
  /** The sentence of `rate_1`. */
  readonly sentence: number;
  /** The chart of `rate_2`. */
  readonly chart: number;
}

/** Presses on the choices of the cell `window` in turn, so many times. */
export async function editTimes(page: Page, times: number): Promise<readonly EditTimes[]> {
  const measured: EditTimes[] = [];
  const choices = cell(page, "window").locator("input[type=radio]");
  for (let i = 0; i < times; i++) {
    const choice = await choices.nth(i % 2).elementHandle();
    const sentence = await cell(page, "rate_1").locator("answer-sentence").elementHandle();
    const chart = await cell(page, "rate_2").locator("answer-chart").elementHandle();
    measured.push(
      await page.evaluate(
        async ([input, said, drawn]) => {
          const shown = [
            () => said?.shadowRoot?.textContent,
            () => drawn?.shadowRoot?.querySelector("svg"),
          ];
          const before = shown.map((now) => now());
          const start = performance.now();
          (input as HTMLElement).click();
          const painted = async (part: number): Promise<number> => {
            while (shown[part]?.() === before[part]) {
              if (performance.now() - start > 10_000) throw new Error("the answer did not change");
              await new Promise(requestAnimationFrame);
            }
            // a message that is sent before a frame is painted arrives when it has been
            await new Promise((arrived) => {
              const { port1, port2 } = new MessageChannel();
              port1.onmessage = arrived;
              port2.postMessage(0);
            });
            return performance.now() - start;
          };
          const [sentence = 0, chart = 0] = await Promise.all([painted(0), painted(1)]);
          return { sentence, chart };
        },
        [choice, sentence, chart] as const,
      ),
    );
    await settled(page);
  }
  return measured;
}
