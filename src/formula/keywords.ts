/** The words of the language itself: no cell, column or argument can have such a name. */
export const keywords: ReadonlySet<string> = new Set([
  "and",
  "or",
  "not",
  "is",
  "if",
  "then",
  "else",
  "between",
  "true",
  "false",
  "missing",
]);

/**
 * Whether a text can be the name of a cell: a letter of any alphabet or an underscore, then
 * letters, digits and underscores; not a keyword in any case. Names are compared as typed, in
 * Unicode normal form C (so an accent typed as a separate mark is the same name).
 */
export function isName(text: string): boolean {
  return /^[\p{L}_][\p{L}\p{M}\p{Nd}_]*$/u.test(text) && !keywords.has(text.toLowerCase());
}
