import type { Page } from "playwright-core";

/**
 * What cannot be read on the page as it stands: what has to be scrolled to the side for, but for
 * tables, grids, charts and fields to write in, what a box cuts off or lets spill out, and texts
 * that lie over each other.
 */
export async function cutOff(page: Page): Promise<readonly string[]> {
  await page.evaluate(() => new Promise(requestAnimationFrame));
  await page.evaluate(() => new Promise(requestAnimationFrame));
  return page.evaluate(foundIn);
}

/** Runs in the page. */
function foundIn(): readonly string[] {
  const found: string[] = [];
  /** Texts by the layer that they lie on: what is sticky or stands absolutely may lie over others. */
  const layers = new Map<Element | null, { readonly box: DOMRect; readonly text: string }[]>();
  const scrollsItself =
    "table, pre, .rows, .tables, .grid, .ground, .drawing, .cm-editor, textarea, input, select, .black";

  visit(document.body, { layer: null, window: new DOMRect(0, 0, innerWidth, innerHeight) });
  for (const texts of layers.values()) {
    texts.forEach((one, i) => {
      for (const other of texts.slice(i + 1)) {
        if (overlap(one.box, other.box)) found.push(`“${one.text}” lies over “${other.text}”`);
      }
    });
  }
  return [...new Set(found)];

  interface Around {
    readonly layer: Element | null;
    /** What of the page can be seen there. */
    readonly window: DOMRect;
  }

  function visit(element: Element, around: Around): void {
    const style = getComputedStyle(element);
    if (!element.checkVisibility() || element.classList.contains("heard-only")) return;
    if (element instanceof SVGElement) return;
    judge(element, style);
    const isLayer = /sticky|fixed|absolute/.test(style.position);
    const layer = isLayer ? element : around.layer;
    const clips = style.overflowX !== "visible" || style.overflowY !== "visible";
    const window = clips ? meet(around.window, element.getBoundingClientRect()) : around.window;
    for (const node of (element.shadowRoot ?? element).childNodes) {
      if (node instanceof Element) visit(node, { layer, window });
      else if (node instanceof Text) texts(node, { layer, window });
    }
  }

  function judge(element: Element, style: CSSStyleDeclaration): void {
    if (element.matches(scrollsItself) || element.closest(scrollsItself) !== null) return;
    const across = element.scrollWidth - element.clientWidth;
    const down = element.scrollHeight - element.clientHeight;
    const name = `${element.localName}.${element.className} “${(element.textContent ?? "").trim().replace(/\s+/g, " ").slice(0, 40)}”`;
    if (element.clientWidth === 0) return;
    if (/auto|scroll/.test(style.overflowX) && across > 1) found.push(`${name} scrolls sideways`);
    const isCut = (overflow: string) => /hidden|clip/.test(overflow);
    if (isCut(style.overflowX) && across > 1) found.push(`${name} is cut at its side`);
    if (isCut(style.overflowY) && down > 2 && element.localName !== "holdfast-book") {
      found.push(`${name} is cut at its foot`);
    }
    if (element.matches("button, summary, label, legend") && across > 2) {
      found.push(`${name} spills out`);
    }
  }

  function texts(node: Text, { layer, window }: Around): void {
    if (node.data.trim() === "") return;
    const range = document.createRange();
    range.selectNodeContents(node);
    const lines = layers.get(layer) ?? [];
    layers.set(layer, lines);
    const text = node.data.trim().replace(/\s+/g, " ").slice(0, 40);
    for (const box of range.getClientRects()) {
      const seen = meet(window, box);
      if (seen.width > 1 && seen.height > 1) lines.push({ box: seen, text });
      if (box.right > window.right + 1 && box.top < window.bottom && box.bottom > window.top) {
        const { parentElement } = node;
        if (parentElement?.closest(scrollsItself) === null) found.push(`“${text}” is out of sight`);
      }
    }
  }

  function meet(one: DOMRect, other: DOMRect): DOMRect {
    const left = Math.max(one.left, other.left);
    const top = Math.max(one.top, other.top);
    const right = Math.min(one.right, other.right);
    const bottom = Math.min(one.bottom, other.bottom);
    return new DOMRect(left, top, Math.max(0, right - left), Math.max(0, bottom - top));
  }

  function overlap(one: DOMRect, other: DOMRect): boolean {
    const both = meet(one, other);
    return both.width > 2 && both.height > 5;
  }
}
