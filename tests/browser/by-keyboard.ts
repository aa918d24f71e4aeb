import type { Page } from "playwright-core";
import { expect } from "vitest";

/** What has the keyboard: how it is called, and why it cannot be seen, where it cannot. */
interface Holder {
  readonly name: string;
  readonly unseen: string | undefined;
}

/** The name of what has the keyboard, through all shadow roots; undefined where nothing has. */
export async function holder(page: Page): Promise<string | undefined> {
  return (await holding(page))?.name;
}

/**
 * Waits until what was asked is done and drawn, and sees that something has the keyboard, that it
 * is marked as having it, and that nothing lies over it.
 */
export async function held(page: Page): Promise<void> {
  await drawn(page);
  const first = await holding(page);
  if (first !== undefined && first.unseen === undefined) return;
  // What opens or is laid out anew takes a few frames.
  await expect
    .poll(
      async () => {
        const place = await holding(page);
        return place === undefined ? "nothing has the keyboard" : (place.unseen ?? "seen");
      },
      { timeout: 1500, message: `the place of the keyboard, at first ${JSON.stringify(first)}` },
    )
    .toBe("seen");
}

export async function press(page: Page, ...keys: readonly string[]): Promise<void> {
  for (const key of keys) {
    await page.keyboard.press(key);
    await held(page);
  }
}

/** Presses a key until what is called so has the keyboard. */
export async function goTo(page: Page, label: RegExp, key: string): Promise<void> {
  const passed: string[] = [];
  for (let step = 0; step < 160; step++) {
    const name = (await holder(page)) ?? "";
    if (label.test(name)) return;
    passed.push(name.slice(0, 24));
    await press(page, key);
  }
  throw new Error(`${key} leads to nothing that is called ${label}: ${passed.join(" | ")}`);
}

export const tabTo = (page: Page, label: RegExp) => goTo(page, label, "Tab");
export const tabBackTo = (page: Page, label: RegExp) => goTo(page, label, "Shift+Tab");

async function drawn(page: Page): Promise<void> {
  await page.evaluate(() => new Promise(requestAnimationFrame));
  await page.evaluate(() => new Promise(requestAnimationFrame));
}

function holding(page: Page): Promise<Holder | undefined> {
  return page.evaluate(holderIn);
}

/** Runs in the page. */
function holderIn(): Holder | undefined {
  let at = document.activeElement;
  while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
  if (at === null || at === document.body) return undefined;
  const label = at instanceof HTMLInputElement ? at.labels?.[0]?.textContent : undefined;
  const name = (at.getAttribute("aria-label") ?? label ?? at.textContent ?? "").trim();
  const around = (element: Element): Element | null =>
    element.assignedSlot ?? element.parentElement ?? hostOf(element);
  const hostOf = (element: Element): Element | null => {
    const root = element.getRootNode();
    return root instanceof ShadowRoot ? root.host : null;
  };
  return { name, unseen: isMarked(at) ? covered(at) : "not marked" };

  /** An outline around it or around what it is drawn as: a label, the ground of an editor. */
  function isMarked(held: Element): boolean {
    for (let of: Element | null = held, up = 0; of !== null && up < 5; of = around(of), up++) {
      const { outlineStyle, outlineWidth } = getComputedStyle(of);
      if (outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 2) return true;
    }
    return false;
  }

  /** Why no point of it can be seen; undefined where one can. */
  function covered(held: Element): string | undefined {
    const box = held.getBoundingClientRect();
    const [left, right] = [Math.max(box.left, 0), Math.min(box.right, innerWidth)];
    const [top, bottom] = [Math.max(box.top, 0), Math.min(box.bottom, innerHeight)];
    if (right - left < 1 || bottom - top < 1) return "outside the window";
    let over = "";
    for (const across of [0.02, 0.25, 0.5, 0.75, 0.98]) {
      for (const down of [0.1, 0.5, 0.9]) {
        const x = left + across * (right - left);
        const y = top + down * (bottom - top);
        let hit = document.elementFromPoint(x, y);
        while (hit?.shadowRoot?.elementFromPoint(x, y)) {
          const inner = hit.shadowRoot.elementFromPoint(x, y);
          if (inner === hit || inner === null) break;
          hit = inner;
        }
        for (let of: Element | null = hit; of !== null; of = around(of)) {
          if (of === held) return undefined;
          // A choice is drawn as its label, which lies over the button of it.
          if (held instanceof HTMLInputElement && of === held.labels?.[0]) return undefined;
        }
        over = hit?.tagName.toLowerCase() ?? "";
      }
    }
    return `covered by ${over}`;
  }
}
