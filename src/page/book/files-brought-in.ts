import { html, nothing, type ReactiveController, type ReactiveControllerHost } from "lit";
import { labels } from "../labels.ts";
import { isWriting } from "./undo-keys.ts";

/** Files and tables that the reader drops anywhere on the page or pastes into it. */
export class FilesBroughtIn implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  readonly #open: (file: File) => void;
  #over = false;

  constructor(host: ReactiveControllerHost, open: (file: File) => void) {
    this.#host = host;
    this.#open = open;
    host.addController(this);
  }

  hostConnected(): void {
    for (const [name, take] of this.#listeners) window.addEventListener(name, take);
  }

  hostDisconnected(): void {
    for (const [name, take] of this.#listeners) window.removeEventListener(name, take);
  }

  /** What covers the page while a file is held over it. */
  overlay(): unknown {
    if (!this.#over) return nothing;
    return html`<div
      style="position:fixed;inset:12px;border:2px dashed var(--ink);background:var(--leaf);
        opacity:.94;display:grid;place-items:center;font:600 20px var(--serif);z-index:9"
    >
      ${labels.dropHere}
    </div>`;
  }

  readonly #dragged = (event: Event): void => {
    event.preventDefault();
    this.#become(true);
  };

  readonly #left = (event: Event): void => {
    if ((event as DragEvent).relatedTarget === null) this.#become(false);
  };

  readonly #dropped = (event: Event): void => {
    event.preventDefault();
    this.#become(false);
    this.#take((event as DragEvent).dataTransfer);
  };

  readonly #pasted = (event: Event): void => {
    if (!isWriting(event)) this.#take((event as ClipboardEvent).clipboardData);
  };

  readonly #listeners: readonly [string, (event: Event) => void][] = [
    ["dragover", this.#dragged],
    ["dragleave", this.#left],
    ["drop", this.#dropped],
    ["paste", this.#pasted],
  ];

  #take(data: DataTransfer | null): void {
    const file = data?.files[0];
    const text = data?.getData("text/plain") ?? "";
    if (file !== undefined) this.#open(file);
    else if (/[\n\r]/.test(text.trim())) this.#open(new File([text], labels.pastedFile));
  }

  #become(over: boolean): void {
    if (over === this.#over) return;
    this.#over = over;
    this.#host.requestUpdate();
  }
}
