import { completed, openDatabase, settled } from "./database-request.ts";
import type { Sealed } from "./passphrase-key.ts";

/** Cases as they lie on this device: in the open, or sealed by a passphrase. */
export type KeptBytes = { readonly open: Uint8Array<ArrayBuffer> } | { readonly sealed: Sealed };

/** One more each time that they are written, whichever window writes. */
export interface KeptVersion {
  readonly version: number;
  readonly kept: KeptBytes;
}

/** `conflict`: another window wrote or erased since; `refused`: the browser denies it, or is full. */
export type Written = { readonly version: number } | "conflict" | "refused";

/** Where cases are kept. No function rejects. */
export interface CaseStore {
  read(): Promise<KeptVersion | undefined>;
  /** Writes over the version that is known here, and over no other; 0: nothing is kept yet. */
  write(kept: KeptBytes, over: number): Promise<Written>;
  /** False where the browser refused. */
  erase(): Promise<boolean>;
}

const storeName = "cases";
const key = "all";

/** The browser's own database; there is none on the device until cases are kept. */
export class BrowserCaseStore implements CaseStore {
  readonly #name: string;

  constructor(name: string) {
    this.#name = name;
  }

  async read(): Promise<KeptVersion | undefined> {
    try {
      const all = await indexedDB.databases();
      if (!all.some(({ name }) => name === this.#name)) return undefined;
      return await this.#within("readonly", (store) => settled(store.get(key)));
    } catch {
      // Denied or broken: as good as nothing kept.
      return undefined;
    }
  }

  async write(kept: KeptBytes, over: number): Promise<Written> {
    try {
      // Reading and writing are one transaction, so that no other window comes between.
      return await this.#within("readwrite", async (store): Promise<Written> => {
        const before: KeptVersion | undefined = await settled(store.get(key));
        if ((before?.version ?? 0) !== over) return "conflict";
        const version = over + 1;
        store.put({ version, kept } satisfies KeptVersion, key);
        return { version };
      });
    } catch {
      return "refused";
    }
  }

  async erase(): Promise<boolean> {
    try {
      await settled(indexedDB.deleteDatabase(this.#name));
      return true;
    } catch {
      return false;
    }
  }

  /** Opens, works and closes: an open database would keep another window from erasing it. */
  async #within<T>(
    mode: IDBTransactionMode,
    work: (store: IDBObjectStore) => Promise<T>,
  ): Promise<T> {
    const database = await openDatabase(this.#name, storeName);
    try {
      const transaction = database.transaction(storeName, mode, { durability: "strict" });
      const done = completed(transaction);
      const result = await work(transaction.objectStore(storeName));
      await done;
      return result;
    } finally {
      database.close();
    }
  }
}
