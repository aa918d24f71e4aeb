import type { AtStart, HeldCases } from "../cases-protocol.ts";
import type { Host } from "../host/host.ts";
import type { CaseStore, KeptBytes } from "./case-store.ts";
import { packCases, unpackCases } from "./packed-cases.ts";
import { PassphraseKey } from "./passphrase-key.ts";

/**
 * `off`: nothing is kept; `locked`: cases are kept, and only a passphrase opens them; `on`: they
 * are kept as they change; `conflict`: another window keeps them, and nothing is written here;
 * `refused`: the browser keeps nothing; `unreadable`: what is kept is damaged, and stays until it is
 * erased.
 */
export type KeepingState = "off" | "locked" | "on" | "conflict" | "refused" | "unreadable";

export interface KeepingWishes {
  readonly passphrase?: string;
  /** Whether the key of patients' codes is kept with the cases. */
  readonly withSecret: boolean;
}

/** Keeps the cases on this device where the reader asked for it, after each change of theirs. */
export class CasesKeeping {
  state: KeepingState = "off";
  /** Whether what is kept is sealed by a passphrase. */
  isSealed = false;
  readonly #host: Host;
  readonly #store: CaseStore;
  readonly #changed: () => void;
  #version = 0;
  #key: PassphraseKey | undefined;
  #withSecret = false;
  #writing: Promise<void> = Promise.resolve();
  #isDue = false;

  constructor(host: Host, store: CaseStore, changed: () => void) {
    this.#host = host;
    this.#store = store;
    this.#changed = changed;
  }

  /** Opens what is kept in the open; what a passphrase seals waits for it. */
  async begin(): Promise<KeepingState> {
    const found = await this.#store.read();
    if (found === undefined) return this.state;
    this.#version = found.version;
    if ("sealed" in found.kept) {
      this.isSealed = true;
      this.#become("locked");
    } else await this.#open(found.kept.open, { atStart: true });
    return this.state;
  }

  /** False where the passphrase is not the one. */
  async unlock(passphrase: string): Promise<boolean> {
    const found = await this.#store.read();
    if (found === undefined || !("sealed" in found.kept)) return false;
    const key = await PassphraseKey.of(passphrase, found.kept.sealed);
    const packed = await key.open(found.kept.sealed);
    if (packed === undefined) return false;
    this.#version = found.version;
    this.#key = key;
    await this.#open(packed, {});
    return true;
  }

  /** Keeps the cases from now on; what was kept before by this window is written over. */
  async keep({ passphrase, withSecret }: KeepingWishes): Promise<void> {
    this.#key = passphrase === undefined ? undefined : await PassphraseKey.fresh(passphrase);
    this.isSealed = passphrase !== undefined;
    this.#withSecret = withSecret;
    this.state = "on";
    await this.casesChanged();
  }

  /** Writes over what another window kept, once the reader has said so. */
  async keepInstead(): Promise<void> {
    this.#version = (await this.#store.read())?.version ?? 0;
    this.state = "on";
    await this.casesChanged();
  }

  /** Erases what is kept, and keeps nothing more. */
  async erase(): Promise<void> {
    this.#isDue = false;
    await this.#writing;
    const erased = await this.#store.erase();
    this.#version = 0;
    this.#key = undefined;
    this.isSealed = false;
    this.#become(erased ? "off" : "refused");
  }

  /** The cases or something that lies over them changed: they are kept anew, one at a time. */
  casesChanged(): Promise<void> {
    if (this.state !== "on" || this.#isDue) return this.#writing;
    this.#isDue = true;
    this.#writing = this.#writing.then(() => this.#write());
    return this.#writing;
  }

  async #write(): Promise<void> {
    if (!this.#isDue) return;
    this.#isDue = false;
    const held = await this.#host.ask({ ask: "cases to keep" });
    if (held === null) return;
    const kept = await this.#keptBytes(this.#withSecret ? held : withoutSecret(held));
    const written = await this.#store.write(kept, this.#version);
    if (typeof written === "object") this.#version = written.version;
    this.#become(typeof written === "object" ? "on" : written);
  }

  async #keptBytes(held: HeldCases): Promise<KeptBytes> {
    const packed = packCases(held);
    return this.#key === undefined ? { open: packed } : { sealed: await this.#key.seal(packed) };
  }

  async #open(packed: Uint8Array, how: AtStart): Promise<void> {
    const kept = heldIn(packed);
    this.#withSecret = kept?.secret !== undefined;
    const reply = kept && (await this.#host.ask({ ask: "open kept cases", kept, ...how }));
    this.#become(reply?.done ? "on" : "unreadable");
  }

  #become(state: KeepingState): void {
    this.state = state;
    this.#changed();
  }
}

function withoutSecret({ secret: _, ...held }: HeldCases): HeldCases {
  return held;
}

/** Undefined where the bytes are of something else: the device, or another program, changed them. */
function heldIn(packed: Uint8Array): HeldCases | undefined {
  try {
    return unpackCases(packed);
  } catch {
    return undefined;
  }
}
