import type { ReactiveController, ReactiveControllerHost } from "lit";

/** Ctrl+P prints as the page's own button does: after every chart is drawn. */
export class PrintKeys implements ReactiveController {
  readonly #print: () => void;

  constructor(host: ReactiveControllerHost, print: () => void) {
    this.#print = print;
    host.addController(this);
  }

  hostConnected(): void {
    window.addEventListener("keydown", this.#take);
  }

  hostDisconnected(): void {
    window.removeEventListener("keydown", this.#take);
  }

  readonly #take = (event: KeyboardEvent): void => {
    if (!(event.ctrlKey || event.metaKey) || event.shiftKey || event.altKey) return;
    if (event.key.toLowerCase() !== "p") return;
    event.preventDefault();
    this.#print();
  };
}
