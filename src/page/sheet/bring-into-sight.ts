/** Milliseconds in which what stands above takes the room that it needs: charts are being drawn. */
const settling = 1500;

/** Of what was brought into sight before. */
let letGo = (): void => {};

/**
 * Scrolls an element of the sheet into sight, and again while the sheet around it is laid out, until
 * the reader does anything.
 */
export function bringIntoSight(element: Element | undefined, block: ScrollLogicalPosition): void {
  letGo();
  if (element === undefined) return;
  const watch = new ResizeObserver(() => element.scrollIntoView({ block }));
  const over = new AbortController();
  letGo = () => {
    watch.disconnect();
    over.abort();
  };
  element.scrollIntoView({ block });
  watch.observe(sheetAround(element));
  for (const act of ["wheel", "touchmove", "pointerdown", "keydown"]) {
    window.addEventListener(act, letGo, { capture: true, passive: true, signal: over.signal });
  }
  const timer = setTimeout(letGo, settling);
  over.signal.addEventListener("abort", () => clearTimeout(timer));
}

/** The sheet that an element stands in, through all shadow roots. */
function sheetAround(element: Element): Element {
  const sheet = element.closest(".sheet");
  if (sheet !== null) return sheet;
  const root = element.getRootNode();
  return root instanceof ShadowRoot ? sheetAround(root.host) : element;
}
