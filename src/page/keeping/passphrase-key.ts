/** Rounds of PBKDF2 with HMAC-SHA-256 (RFC 8018); as OWASP's password storage advice of 2023. */
export const keyRounds = 600_000;
const saltBytes = 16;
/** Bytes of a nonce of AES-GCM (NIST SP 800-38D, 5.2.1.1). */
const nonceBytes = 12;

/** Bytes that only the passphrase opens. */
export interface Sealed {
  readonly salt: Uint8Array<ArrayBuffer>;
  readonly rounds: number;
  readonly nonce: Uint8Array<ArrayBuffer>;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** A key from a passphrase. The passphrase itself is not held, and the key cannot be read out. */
export class PassphraseKey {
  readonly #key: CryptoKey;
  readonly #salt: Uint8Array<ArrayBuffer>;
  readonly #rounds: number;

  private constructor(key: CryptoKey, salt: Uint8Array<ArrayBuffer>, rounds: number) {
    this.#key = key;
    this.#salt = salt;
    this.#rounds = rounds;
  }

  /** A key with a salt of its own, for what has not been kept before. */
  static fresh(passphrase: string): Promise<PassphraseKey> {
    const salt = crypto.getRandomValues(new Uint8Array(saltBytes));
    return PassphraseKey.#derived(passphrase, salt, keyRounds);
  }

  /** The key of what was sealed; whether it is the right one shows when it opens that. */
  static of(passphrase: string, { salt, rounds }: Sealed): Promise<PassphraseKey> {
    return PassphraseKey.#derived(passphrase, salt, rounds);
  }

  static async #derived(
    passphrase: string,
    salt: Uint8Array<ArrayBuffer>,
    rounds: number,
  ): Promise<PassphraseKey> {
    // One passphrase may be typed as different code points (Unicode Standard Annex 15).
    const written = new TextEncoder().encode(passphrase.normalize("NFKC"));
    const base = await crypto.subtle.importKey("raw", written, "PBKDF2", false, ["deriveKey"]);
    const key = await crypto.subtle.deriveKey(
      { name: "PBKDF2", hash: "SHA-256", salt, iterations: rounds },
      base,
      { name: "AES-GCM", length: 256 },
      false,
      ["encrypt", "decrypt"],
    );
    return new PassphraseKey(key, salt, rounds);
  }

  /** Seals bytes under a nonce that is used this once. */
  async seal(bytes: Uint8Array<ArrayBuffer>): Promise<Sealed> {
    const nonce = crypto.getRandomValues(new Uint8Array(nonceBytes));
    const sealed = await crypto.subtle.encrypt({ name: "AES-GCM", iv: nonce }, this.#key, bytes);
    return { salt: this.#salt, rounds: this.#rounds, nonce, bytes: new Uint8Array(sealed) };
  }

  /** The bytes, or undefined where the passphrase is another one, or they were changed. */
  async open({ nonce, bytes }: Sealed): Promise<Uint8Array<ArrayBuffer> | undefined> {
    try {
      const opened = await crypto.subtle.decrypt({ name: "AES-GCM", iv: nonce }, this.#key, bytes);
      return new Uint8Array(opened);
    } catch {
      // The one way in which AES-GCM refuses: the tag does not fit.
      return undefined;
    }
  }
}
