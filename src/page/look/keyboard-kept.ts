import type { ReactiveController, ReactiveControllerHost } from "lit";

/** The element that holds the whole page. */
interface Page extends ReactiveControllerHost, HTMLElement {}

/**
 * The keyboard is never lost: where what has it goes away with what it did, what can have it next
 * to that gets it, so that the next Tab goes on from there.
 */
export class KeyboardKept implements ReactiveController {
  readonly #page: Page;
  /** The leaf, where nothing nearer is left. */
  readonly #ground: () => Element | null;
  /** What had the keyboard last, and all around it. */
  #path: readonly Element[] = [];
  #usesPointer = false;

  constructor(page: Page, ground: () => Element | null) {
    this.#page = page;
    this.#ground = ground;
    page.addController(this);
  }

  hostConnected(): void {
    this.#page.addEventListener("focusin", this.#took);
    window.addEventListener("keydown", this.#key, { capture: true });
    window.addEventListener("click", this.#soon);
    window.addEventListener("pointerdown", this.#pointer, { capture: true });
  }

  hostDisconnected(): void {
    this.#page.removeEventListener("focusin", this.#took);
    window.removeEventListener("keydown", this.#key, { capture: true });
    window.removeEventListener("click", this.#soon);
    window.removeEventListener("pointerdown", this.#pointer, { capture: true });
  }

  hostUpdated(): void {
    this.#soon();
  }

  readonly #took = (event: Event): void => {
    this.#path = event.composedPath().filter((each) => each instanceof Element);
  };

  readonly #key = (): void => {
    this.#usesPointer = false;
    this.#soon();
  };

  /** Who presses with a pointer is not sent anywhere. */
  readonly #pointer = (): void => {
    this.#usesPointer = true;
  };

  /** Looks once what was done is drawn. */
  readonly #soon = (): void => {
    requestAnimationFrame(() => this.#keep());
  };

  #keep(): void {
    if (this.#usesPointer || this.#path.length === 0) return;
    if (document.activeElement !== document.body || !document.hasFocus()) return;
    const within = this.#path.slice(0, this.#path.indexOf(this.#page));
    for (const around of [...within, this.#ground()]) {
      if (!around?.isConnected || !around.checkVisibility()) continue;
      const stop = firstStop(around);
      if (stop === undefined) continue;
      stop.focus();
      return;
    }
  }
}

/** What Tab comes to first in an element, itself included, through its shadow. */
function firstStop(element: Element): HTMLElement | undefined {
  if (!element.checkVisibility()) return undefined;
  if (element instanceof HTMLElement && element.tabIndex >= 0 && !element.matches(":disabled")) {
    return element;
  }
  for (const child of (element.shadowRoot ?? element).children) {
    const stop = firstStop(child);
    if (stop !== undefined) return stop;
  }
  return undefined;
}
