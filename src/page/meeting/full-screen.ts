import type { ReactiveController, ReactiveControllerHost } from "lit";

/** Puts the page on the whole screen and back, and knows which it is. */
export class FullScreen implements ReactiveController {
  readonly #host: ReactiveControllerHost;

  constructor(host: ReactiveControllerHost) {
    this.#host = host;
    host.addController(this);
  }

  get on(): boolean {
    return document.fullscreenElement !== null;
  }

  hostConnected(): void {
    document.addEventListener("fullscreenchange", this.#changed);
  }

  hostDisconnected(): void {
    document.removeEventListener("fullscreenchange", this.#changed);
  }

  async toggle(): Promise<void> {
    if (this.on) await document.exitFullscreen();
    else await document.documentElement.requestFullscreen();
  }

  readonly #changed = (): void => this.#host.requestUpdate();
}
