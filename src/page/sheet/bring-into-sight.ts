/** Frames after which a sheet that still moves is left as it is. */
const mostFrames = 12;

/**
 * Scrolls an element into sight, and again while what stands above it takes the room that it needs
 * once it is laid out.
 */
export async function bringIntoSight(
  element: Element | undefined,
  block: ScrollLogicalPosition,
): Promise<void> {
  if (element === undefined) return;
  for (let frame = 0, before = Number.NaN; frame < mostFrames; frame++) {
    element.scrollIntoView({ block });
    const { top } = element.getBoundingClientRect();
    if (Math.abs(top - before) < 1) return;
    before = top;
    await new Promise((done) => requestAnimationFrame(done));
  }
}
