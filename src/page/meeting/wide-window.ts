import type { ReactiveController, ReactiveControllerHost } from "lit";

/**
 * Knows whether the window has room for a whole page of the meeting, which a telephone's has not,
 * and tells when that changes.
 */
export class WideWindow implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  readonly #wide = window.matchMedia("(min-width: 43.8125rem) and (min-height: 32.5625rem)");

  constructor(host: ReactiveControllerHost) {
    this.#host = host;
    host.addController(this);
  }

  get is(): boolean {
    return this.#wide.matches;
  }

  hostConnected(): void {
    this.#wide.addEventListener("change", this.#changed);
  }

  hostDisconnected(): void {
    this.#wide.removeEventListener("change", this.#changed);
  }

  readonly #changed = (): void => this.#host.requestUpdate();
}
