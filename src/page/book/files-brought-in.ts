import { html, nothing, type ReactiveController, type ReactiveControllerHost } from "lit";
import type { Act } from "../act.ts";
import { isJsonFile } from "../host/open-departments.ts";
import { labels } from "../labels.ts";
import { isWriting } from "./undo-keys.ts";

type Opening = Extract<Act, { act: "open file" | "open departments" }>;

/** Files and tables that the reader drops anywhere on the page or pastes into it. */
export class FilesBroughtIn implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  readonly #open: (act: Opening) => Promise<void>;
  #over = false;

  constructor(host: ReactiveControllerHost, open: (act: Opening) => Promise<void>) {
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
        opacity:.94;display:grid;place-items:center;font:600 1.25rem var(--serif);z-index:9"
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
    void this.#take((event as DragEvent).dataTransfer);
  };

  readonly #pasted = (event: Event): void => {
    if (!isWriting(event)) void this.#take((event as ClipboardEvent).clipboardData);
  };

  readonly #listeners: readonly [string, (event: Event) => void][] = [
    ["dragover", this.#dragged],
    ["dragleave", this.#left],
    ["drop", this.#dropped],
    ["paste", this.#pasted],
  ];

  async #take(data: DataTransfer | null): Promise<void> {
    const files = inOrder([...(data?.files ?? [])]);
    const text = data?.getData("text/plain") ?? "";
    if (files.length === 0 && /[\n\r]/.test(text.trim())) {
      files.push(new File([text], labels.pastedFile));
    }
    for (const act of openings(files)) await this.#open(act);
  }

  #become(over: boolean): void {
    if (over === this.#over) return;
    this.#over = over;
    this.#host.requestUpdate();
  }
}

/**
 * Departments' aggregates that come together are opened together; of files of cases the first is
 * opened and the others are put to it.
 */
function openings(files: readonly File[]): Opening[] {
  const departments = files.filter(({ name }) => isJsonFile(name));
  const cases = files.filter(isOfCases);
  const further = cases.slice(1);
  const others = files.filter((file) => !departments.includes(file) && !further.includes(file));
  return [
    ...others.map((file) => {
      return { act: "open file", file, ...(file === cases[0] && { further }) } as const;
    }),
    ...(departments.length > 0 ? [{ act: "open departments", files: departments } as const] : []),
  ];
}

/** Files that come together: a notebook, then its cases, then the corrections that lie over them. */
function inOrder(files: readonly File[]): File[] {
  const rank = (file: File) => (isOfCases(file) ? 1 : /corrections/i.test(file.name) ? 2 : 0);
  return files.toSorted((one, other) => rank(one) - rank(other));
}

function isOfCases({ name }: File): boolean {
  return !/\.(md|markdown)$/i.test(name) && !/corrections/i.test(name) && !isJsonFile(name);
}
