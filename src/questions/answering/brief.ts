import { type Answer, type Sentence, sentenceText } from "../answer.ts";

/** What is read from the back of a room fits one line of about so many characters. */
export const mostBriefCharacters = 140;

/** A full stop that ends a sentence: followed by a space and a capital or a number. */
const fullStop = /\.\s+(?=[\p{Lu}\d“"(])/u;

/**
 * The answer with its brief: its own where it fits the line; else its sentence where that is one
 * short sentence; else none. A brief never carries more than the sentence does.
 */
export function withBrief(answer: Answer): Answer {
  const { brief, ...rest } = answer;
  if (brief !== undefined && fits(brief)) return answer;
  const isOne = !fullStop.test(sentenceText(answer.sentence));
  return isOne && fits(answer.sentence) ? { ...rest, brief: answer.sentence } : rest;
}

function fits(sentence: Sentence): boolean {
  const { length } = sentenceText(sentence);
  return length > 0 && length <= mostBriefCharacters;
}
