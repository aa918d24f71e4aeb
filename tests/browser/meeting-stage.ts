import type { Page } from "playwright-core";

/** How the page of the meeting that is turned to fits its window, and how small its text gets. */
export interface MeetingStage {
  /** Pixels by which the leaf is taller than its window, and its chart or table than its stage. */
  readonly over: number;
  readonly overStage: number;
  readonly smallest: { readonly pixels: number; readonly text: string };
}

/** Measures the page turned to, once its chart is drawn. */
export async function meetingStage(page: Page): Promise<MeetingStage> {
  const shown = page.locator("meeting-leaf .pages > [shown]");
  await shown.evaluate(async (at) => {
    const chart = at.shadowRoot?.querySelector("answer-chart")?.shadowRoot;
    const start = performance.now();
    while (chart && !chart.querySelector("svg") && performance.now() - start < 10_000) {
      await new Promise((done) => requestAnimationFrame(done));
    }
    for (let frame = 0; frame < 4; frame++) {
      await new Promise((done) => requestAnimationFrame(done));
    }
  });
  return shown.evaluate(measured);
}

/** Runs in the page. */
function measured(page: Element): MeetingStage {
  const main = document.querySelector("holdfast-book")?.shadowRoot?.querySelector("main");
  if (!main) throw new Error("the book has no leaf");
  const stage = page.shadowRoot?.querySelector(".stage");
  const inner = stage?.querySelector("answer-chart")?.shadowRoot?.querySelector(".ground") ?? stage;
  let smallest = { pixels: Number.POSITIVE_INFINITY, text: "" };
  const visit = (node: Node, scale: number): void => {
    if (node instanceof Text && node.data.trim() !== "" && node.parentElement) {
      const pixels = Number.parseFloat(getComputedStyle(node.parentElement).fontSize) * scale;
      if (pixels < smallest.pixels) smallest = { pixels, text: node.data.trim() };
    }
    if (node instanceof HTMLStyleElement) return;
    let inside = scale;
    if (node instanceof Element) {
      if (getComputedStyle(node).display === "none") return;
      if (node.classList.contains("heard-only")) return;
      if (node instanceof SVGSVGElement && node.viewBox.baseVal?.width > 0) {
        inside *= node.getBoundingClientRect().width / node.viewBox.baseVal.width;
      }
      if (node.shadowRoot) visit(node.shadowRoot, inside);
    }
    for (const child of node.childNodes) visit(child, inside);
  };
  visit(page, 1);
  return {
    over: main.scrollHeight - main.clientHeight,
    overStage: inner ? inner.scrollHeight - inner.clientHeight : 0,
    smallest,
  };
}
