import { seededRandom, shuffle } from "../../statistics/seeded-random.ts";

/** People's codes written anew, the same person alike all over the report. */
export interface RecodedPeople {
  /** A text in which codes stand as words. */
  inText(text: string): string;
  /** A label of a column that holds people's codes and nothing else. */
  asLabel(label: string): string;
  /** Whether a name such as `eyes_of_T2` holds a code. */
  isNamedIn(name: string): boolean;
}

/**
 * Codes become "person 1", "person 2" … in an order that tells nothing: a shuffle by a seed that
 * the reader of the shared report cannot know.
 */
export function recodedPeople(codes: readonly string[], seed: number): RecodedPeople {
  const order = [...new Set(codes)].sort();
  shuffle(order, seededRandom(seed));
  const labels = new Map(order.map((code, position) => [code, `person ${position + 1}`]));
  const words = order.filter((code) => !/^\d+$/.test(code)).sort((a, b) => b.length - a.length);
  const pattern = words.length === 0 ? undefined : wordsPattern(words);
  return {
    asLabel: (label) => labels.get(label) ?? label,
    inText: (text) =>
      pattern === undefined ? text : text.replace(pattern, (code) => labels.get(code) ?? code),
    isNamedIn: (name) => name.split("_").some((part) => words.includes(part)),
  };
}

/** Codes as whole words; a code A or I is an article or a pronoun where a small letter follows. */
function wordsPattern(words: readonly string[]): RegExp {
  const escaped = words.map((word) => {
    const literal = word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    return /^[AI]$/.test(word) ? `${literal}(?! \\p{Ll})` : literal;
  });
  return new RegExp(`(?<![\\p{L}\\p{N}])(?:${escaped.join("|")})(?![\\p{L}\\p{N}])`, "gu");
}
