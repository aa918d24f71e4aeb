/** What stands where a case or a patient was named. */
export const idWithheld = "(withheld)";

/**
 * A text without the ids of cases and patients that stand in it as words. An id of digits alone is
 * one where it has four or more and is no year: a shorter one cannot be told from a count.
 */
export function withoutIds(ids: Iterable<string>): (text: string) => string {
  const known = new Set([...ids].filter(isTelling));
  if (known.size === 0) return (text) => text;
  const withheldIfKnown = (word: string) => (known.has(word) ? idWithheld : word);
  return (text) =>
    text.replace(longWords, withheldIfKnown).replace(/[\p{L}\p{N}]+/gu, withheldIfKnown);
}

/**
 * A text without words that look like the id of a patient, whose own ids are dropped on reading: letters
 * with three digits or more, "SM0001", or six digits and more. A year is none, nor its quarter.
 */
export function withoutIdLikes(text: string): string {
  return text.replace(/[\p{L}\p{N}]+/gu, (word) => (isIdLike(word) ? idWithheld : word));
}

function isIdLike(word: string): boolean {
  if (/^(?:19|20)\d\d(?!\d)/.test(word)) return false;
  const digits = word.replace(/\D/g, "").length;
  return /^\d+$/.test(word) ? digits >= 6 : digits >= 3;
}

/** Ids may be put together by signs: "2025/0113", "RD-17". */
const longWords = /[\p{L}\p{N}]+(?:[-/._][\p{L}\p{N}]+)+/gu;

function isTelling(id: string): boolean {
  if (/^\d+$/.test(id)) return id.length >= 4 && !/^(?:19|20)\d\d$/.test(id);
  return /\d/.test(id) && id.length >= 3;
}
