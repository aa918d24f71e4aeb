/**
 * SHA-256 in hexadecimal. Browsers offer it to pages opened from disk, from this machine or over
 * https; elsewhere this throws an error that says so.
 */
export async function fileDigest(bytes: Uint8Array): Promise<string> {
  if (!offersDigests()) throw new Error(refused);
  const digest = await crypto.subtle.digest("SHA-256", bytes as Uint8Array<ArrayBuffer>);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Whether digests are to be had here. */
export function offersDigests(): boolean {
  return globalThis.crypto?.subtle !== undefined;
}

const refused =
  "this browser works out digests only for a page opened from disk or over https; open it so";
