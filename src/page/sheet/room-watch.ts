import type { ReactiveController, ReactiveControllerHost } from "lit";

/** Keeps an element told how many pixels across it is, in steps of `step`, so that it may settle. */
export class RoomWatch implements ReactiveController {
  width = 0;
  /** Pixels, in steps; kept only where asked for. */
  height = 0;
  readonly #observer: ResizeObserver;
  readonly #host: ReactiveControllerHost & HTMLElement;

  constructor(host: ReactiveControllerHost & HTMLElement, { step = 20, heightToo = false } = {}) {
    this.#host = host;
    const inSteps = (pixels = 0) => Math.floor(pixels / step) * step;
    this.#observer = new ResizeObserver(([entry]) => {
      const width = inSteps(entry?.contentRect.width);
      const height = heightToo ? inSteps(entry?.contentRect.height) : 0;
      if (width === this.width && height === this.height) return;
      [this.width, this.height] = [width, height];
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
