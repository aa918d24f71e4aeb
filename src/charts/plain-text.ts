/**
 * Text from a file, made fit to stand on one line of a drawing: control characters, line breaks
 * and marks that reverse reading order become spaces, halves of characters become U+FFFD, runs of
 * white space become one space. Nothing else changes; an empty text becomes "(no name)".
 */
export function plainText(text: string): string {
  const line = text
    .replace(/[\p{Cc}\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069\ufffe\uffff]/gu, " ")
    .replace(/\p{Surrogate}/gu, "\ufffd")
    .replace(/\s+/g, " ")
    .trim();
  return line === "" ? "(no name)" : line;
}
