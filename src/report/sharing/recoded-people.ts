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
    inText: (text) => {
      if (pattern === undefined) return text;
      return text
        .replace(pattern, (code) => labels.get(code) ?? code)
        .replace(named(words), (_, before: string, code: string) => {
          const meant = words.find((each) => each.toLowerCase() === code.toLowerCase());
          return `${before}${labels.get(meant ?? "") ?? code}`;
        });
    },
    isNamedIn: (name) => name.split("_").some((part) => isCodeInName(part, words)),
  };
}

/** Names of cells are written small: `rate_e` tells of E as `rate_E` does; `a` and `i` are words. */
function isCodeInName(part: string, codes: readonly string[]): boolean {
  if (/^[ai]$/.test(part)) return false;
  return codes.some((code) => code.toLowerCase() === part.toLowerCase());
}

/** "surgeon e" is a code in small letters, which elsewhere might be any word. */
function named(codes: readonly string[]): RegExp {
  const literal = codes.map(asWord).join("|");
  const roles = "surgeon|supervisor|trainee|trainer|consultant|operator";
  return new RegExp(`\\b((?:${roles})s? )(${literal})(?![\\p{L}\\p{N}])`, "giu");
}

/** Codes as whole words; a code A or I is an article or a pronoun where a small letter follows. */
function wordsPattern(words: readonly string[]): RegExp {
  const literal = words.map(asWord).join("|");
  return new RegExp(`(?<![\\p{L}\\p{N}])(?:${literal})(?![\\p{L}\\p{N}])`, "gu");
}

function asWord(code: string): string {
  const literal = code.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  return /^[AI]$/.test(code) ? `${literal}(?! \\p{Ll})` : literal;
}
