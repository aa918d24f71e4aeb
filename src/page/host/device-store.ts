import { completed, openDatabase, settled } from "../keeping/database-request.ts";

/** Texts that stay in this browser, by key. Neither function rejects. */
export interface DeviceStore {
  /** Undefined where there is none, or where the browser keeps nothing. */
  get(key: string): Promise<string | undefined>;
  /** Without a text, the key is forgotten. False where the browser refused. */
  set(key: string, text: string | undefined): Promise<boolean>;
}

const storeName = "texts";

/** The browser's own database. A text counts as kept once it is on the disk. */
export class BrowserStore implements DeviceStore {
  readonly #name: string;
  #opened: Promise<IDBDatabase> | undefined;

  constructor(name: string) {
    this.#name = name;
  }

  async get(key: string): Promise<string | undefined> {
    try {
      const store = (await this.#database()).transaction(storeName).objectStore(storeName);
      const text: unknown = await settled(store.get(key));
      return typeof text === "string" ? text : undefined;
    } catch {
      // Denied or broken: as good as nothing kept.
      return undefined;
    }
  }

  async set(key: string, text: string | undefined): Promise<boolean> {
    try {
      const database = await this.#database();
      const transaction = database.transaction(storeName, "readwrite", { durability: "strict" });
      const store = transaction.objectStore(storeName);
      if (text === undefined) store.delete(key);
      else store.put(text, key);
      transaction.commit();
      await completed(transaction);
      return true;
    } catch {
      // Denied, or full: whoever asked says so.
      return false;
    }
  }

  #database(): Promise<IDBDatabase> {
    this.#opened ??= openDatabase(this.#name, storeName);
    return this.#opened;
  }
}
