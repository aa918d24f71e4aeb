import type { ReactiveController, ReactiveControllerHost } from "lit";

/** How far outside the window, in pixels, an element counts as near it. */
const margin = "700px";

/** Tells an element once that it came near the window, so that it may draw what takes time. */
export class NearWindow implements ReactiveController {
  /** It is near, or was once. */
  reached = false;
  readonly #host: ReactiveControllerHost & HTMLElement;
  readonly #observer: IntersectionObserver;

  constructor(host: ReactiveControllerHost & HTMLElement) {
    this.#host = host;
    // The sheet scrolls inside the page: `scrollMargin` reaches outside what it scrolls in.
    const options = { rootMargin: margin, scrollMargin: margin } as IntersectionObserverInit;
    this.#observer = new IntersectionObserver((entries) => {
      if (entries.some(({ isIntersecting }) => isIntersecting)) this.reach();
    }, options);
    host.addController(this);
  }

  hostConnected(): void {
    if (!this.reached) this.#observer.observe(this.#host);
  }

  hostDisconnected(): void {
    this.#observer.disconnect();
  }

  /** As if it had come near: all of it is to be printed. */
  reach(): void {
    if (this.reached) return;
    this.reached = true;
    this.#observer.disconnect();
    this.#host.requestUpdate();
  }
}
