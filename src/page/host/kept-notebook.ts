import type { NamedText } from "./named-text.ts";

/** What is kept on this device: the notebook and what was being written in it, and no cases. */
export interface Kept {
  readonly notebook: NamedText;
  readonly draft?: Draft;
}

/** What was being written into a cell and was not applied yet. */
export interface Draft {
  readonly cell: string;
  readonly text: string;
}

const notebookKey = "holdfast notebook";
const draftKey = "holdfast draft";

/** Keeps the notebook in the browser's own storage, so that a crash loses nothing. */
export class KeptNotebook {
  readonly #storage: Storage | undefined;

  /** Without a storage nothing is kept, and every act says so. */
  constructor(storage: Storage | undefined) {
    this.#storage = storage;
  }

  /** What was kept last; nothing where it cannot be read. */
  read(): Kept | undefined {
    const notebook = this.#get(notebookKey, isNamedText);
    const draft = this.#get(draftKey, isDraft);
    return notebook === undefined ? undefined : { notebook, ...(draft && { draft }) };
  }

  /** False where the browser refused: storage is denied, or full. */
  keep(notebook: NamedText): boolean {
    return this.#set(notebookKey, notebook);
  }

  keepDraft(draft: Draft | undefined): boolean {
    return draft === undefined ? this.#remove(draftKey) : this.#set(draftKey, draft);
  }

  forget(): void {
    this.#remove(notebookKey);
    this.#remove(draftKey);
  }

  #get<T>(key: string, is: (value: unknown) => value is T): T | undefined {
    try {
      const value: unknown = JSON.parse(this.#storage?.getItem(key) ?? "null");
      return is(value) ? value : undefined;
    } catch {
      // Not ours, or not readable: as good as nothing kept.
      return undefined;
    }
  }

  #set(key: string, value: unknown): boolean {
    try {
      this.#storage?.setItem(key, JSON.stringify(value));
      return this.#storage !== undefined;
    } catch {
      return false;
    }
  }

  #remove(key: string): boolean {
    this.#storage?.removeItem(key);
    return this.#storage !== undefined;
  }
}

/** The storage of this browser, where it lets the page have one. */
export function deviceStorage(): Storage | undefined {
  try {
    return window.localStorage;
  } catch {
    return undefined;
  }
}

function isNamedText(value: unknown): value is NamedText {
  return hasTexts(value, ["name", "text"]);
}

function isDraft(value: unknown): value is Draft {
  return hasTexts(value, ["cell", "text"]);
}

function hasTexts(value: unknown, names: readonly string[]): boolean {
  if (typeof value !== "object" || value === null) return false;
  const texts = new Map<string, unknown>(Object.entries(value));
  return names.every((name) => typeof texts.get(name) === "string");
}
