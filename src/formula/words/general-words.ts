import type { Word } from "../vocabulary.ts";
import { dayWords } from "./day-words.ts";
import { listWords } from "./list-words.ts";
import { numberWords } from "./number-words.ts";
import { textWords } from "./text-words.ts";

/** The words that know no domain: over numbers, texts, days and lists. */
export const generalWords: readonly Word[] = [
  ...numberWords,
  ...textWords,
  ...dayWords,
  ...listWords,
];
