/**
 * A spelling without what people vary: case, accents, spaces, underscores and punctuation.
 * "Date of Surgery", "date_of_surgery" and "DATE-OF-SURGERY" fold to the same text. Signs alone
 * ("?", "+") fold to nothing.
 */
export function foldSpelling(written: string): string {
  return written
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]/gu, "");
}
