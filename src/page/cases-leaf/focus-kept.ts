import type { ReactiveController, ReactiveControllerHost } from "lit";

/** An element whose controls come and go with what they do. */
interface Changing extends ReactiveControllerHost, HTMLElement {}

/**
 * Where the control that has the keyboard goes away with what it did, the heading of its section
 * gets it: nothing is done there by pressing a key twice, and Tab goes on from where it was.
 */
export class FocusKept implements ReactiveController {
  readonly #host: Changing;
  #sections: readonly (Element | null | undefined)[] = [];

  constructor(host: Changing) {
    this.#host = host;
    host.addController(this);
  }

  hostUpdate(): void {
    const active = this.#host.shadowRoot?.activeElement;
    const own = active && (active.closest("section") ?? this.#host.closest("section"));
    this.#sections = active ? [own, own?.nextElementSibling, own?.previousElementSibling] : [];
  }

  hostUpdated(): void {
    if (this.#sections.length === 0 || document.activeElement !== document.body) return;
    const section = this.#sections.find((found) => found?.isConnected);
    const heading = (section ?? this.#host.shadowRoot)?.querySelector("h2");
    if (!heading) return;
    heading.tabIndex = -1;
    heading.focus({ preventScroll: true });
  }
}
