import type { DeviceStore } from "./device-store.ts";
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

const notebookKey = "notebook";
const draftKey = "draft";

/** Keeps the notebook in the browser's own store, so that a crash loses nothing. */
export class KeptNotebook {
  readonly #store: DeviceStore | undefined;

  /** Without a store nothing is kept, and every act says so. */
  constructor(store: DeviceStore | undefined) {
    this.#store = store;
  }

  /** What was kept last; nothing where it cannot be read. */
  async read(): Promise<Kept | undefined> {
    const notebook = await this.#get(notebookKey, isNamedText);
    const draft = await this.#get(draftKey, isDraft);
    return notebook === undefined ? undefined : { notebook, ...(draft && { draft }) };
  }

  /** False where the browser refused: storage is denied, or full. */
  keep(notebook: NamedText): Promise<boolean> {
    return this.#set(notebookKey, notebook);
  }

  keepDraft(draft: Draft | undefined): Promise<boolean> {
    return this.#set(draftKey, draft);
  }

  async forget(): Promise<void> {
    await this.#set(notebookKey, undefined);
    await this.#set(draftKey, undefined);
  }

  async #get<T>(key: string, is: (value: unknown) => value is T): Promise<T | undefined> {
    const text = await this.#store?.get(key);
    try {
      const value: unknown = JSON.parse(text ?? "null");
      return is(value) ? value : undefined;
    } catch {
      // Not ours, or not readable: as good as nothing kept.
      return undefined;
    }
  }

  async #set(key: string, value: NamedText | Draft | undefined): Promise<boolean> {
    if (this.#store === undefined) return false;
    return this.#store.set(key, value === undefined ? undefined : JSON.stringify(value));
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
