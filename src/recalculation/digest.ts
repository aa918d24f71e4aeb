/**
 * Tells whether a text is the same as before; it keeps no secret. Fowler, Noll and Vo's hash
 * FNV-1a over the UTF-16 units (1991; offset and prime of 32 bits), here from any starting value.
 */
export function digestOf(text: string, start = offsetBasis): number {
  let hash = start;
  for (let i = 0; i < text.length; i++) {
    hash = Math.imul(hash ^ text.charCodeAt(i), prime);
  }
  return hash >>> 0;
}

/** 32 bits as eight digits to the base sixteen. */
export function digitsOf(digest: number): string {
  return digest.toString(16).padStart(8, "0");
}

const offsetBasis = 0x811c9dc5;
const prime = 0x01000193;
