import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { Request } from "../protocol.ts";

/** Ctrl+Z and Ctrl+Shift+Z (or Ctrl+Y) anywhere but in a text that has its own undo. */
export class UndoKeys implements ReactiveController {
  readonly #ask: (request: Request) => void;

  constructor(host: ReactiveControllerHost, ask: (request: Request) => void) {
    this.#ask = ask;
    host.addController(this);
  }

  hostConnected(): void {
    window.addEventListener("keydown", this.#take);
  }

  hostDisconnected(): void {
    window.removeEventListener("keydown", this.#take);
  }

  readonly #take = (event: KeyboardEvent): void => {
    if (!(event.ctrlKey || event.metaKey) || isWriting(event)) return;
    const key = event.key.toLowerCase();
    if (key !== "z" && key !== "y") return;
    event.preventDefault();
    this.#ask({ ask: key === "y" || event.shiftKey ? "redo" : "undo" });
  };
}

/** Is the reader in a field of text? Radio buttons and ticks have no undo of their own. */
export function isWriting(event: Event): boolean {
  const target = event.composedPath()[0];
  if (target instanceof HTMLInputElement) return !/^(radio|checkbox|button)$/.test(target.type);
  return (
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement ||
    (target instanceof HTMLElement && target.isContentEditable)
  );
}
