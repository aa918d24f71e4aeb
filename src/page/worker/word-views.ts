import type { Word } from "../../formula/vocabulary.ts";
import type { Question } from "../../questions/question.ts";
import { poolingVocabulary } from "../../questions/vocabulary.ts";
import type { WordView } from "../protocol.ts";

/** The vocabulary as plain data: what each word means and takes, not how it is worked out. */
export function wordViews(): readonly WordView[] {
  return [...poolingVocabulary.values()].map(wordView);
}

function wordView(word: Word | Question): WordView {
  const { name, meaning, parameters, answers } = word;
  const asked = "asks" in word ? { asks: word.asks, example: word.example } : {};
  return { name, meaning, parameters, answers, ...asked };
}
