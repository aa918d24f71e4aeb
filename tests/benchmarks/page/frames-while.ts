import type { Page } from "playwright-core";

/** Milliseconds between frames while what scrolls the sheet moves by some pixels at each. */
export function framesWhile(
  page: Page,
  by: { readonly down: number; readonly count: number },
): Promise<number[]> {
  return page.evaluate(async ({ down, count }) => {
    const book = document.querySelector("holdfast-book")?.shadowRoot;
    const main = book?.querySelector("main");
    if (main == null) throw new Error("the page has no main part");
    const scrolled = main.scrollHeight > main.clientHeight ? main : document.documentElement;
    scrolled.scrollTo(0, 0);
    const times: number[] = [];
    let last = await new Promise(requestAnimationFrame);
    for (let frame = 0; frame < count; frame++) {
      scrolled.scrollBy(0, down);
      const now = await new Promise(requestAnimationFrame);
      times.push(now - last);
      last = now;
    }
    if (scrolled.scrollTop === 0) throw new Error("the sheet did not scroll");
    return times;
  }, by);
}
