import type { ReactiveController, ReactiveControllerHost } from "lit";

/** Keeps an element told how many pixels across it is, in steps of `step`, so that it may settle. */
export class RoomWatch implements ReactiveController {
  width = 0;
  readonly #observer: ResizeObserver;
  readonly #host: ReactiveControllerHost & HTMLElement;

  constructor(host: ReactiveControllerHost & HTMLElement, step = 20) {
    this.#host = host;
    this.#observer = new ResizeObserver(([entry]) => {
      const width = Math.floor((entry?.contentRect.width ?? 0) / step) * step;
      if (width === this.width) return;
      this.width = width;
      host.requestUpdate();
    });
    host.addController(this);
  }

  hostConnected(): void {
    this.#observer.observe(this.#host);
  }

  hostDisconnected(): void {
    this.#observer.disconnect();
  }
}
