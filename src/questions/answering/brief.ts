import { type Answer, type Sentence, sentenceText } from "../answer.ts";

/** What is read from the back of a room fits one line of about so many characters. */
export const mostBriefCharacters = 140;

/** A full stop that ends a sentence: followed by a space and a capital or a number. */
const fullStop = /\.\s+(?=[\p{Lu}\d“"(])/u;

/**
 * The answer with its brief: its own where it fits the line; else the first of its sentences
 * where that is short; else none. A brief never carries more than the sentence does.
 */
export function withBrief(answer: Answer): Answer {
  const { brief, ...rest } = answer;
  if (brief !== undefined && isBrief(brief)) return answer;
  const first = firstOf(answer.sentence);
  return isBrief(first) ? { ...rest, brief: first } : rest;
}

/** The parts up to the first full stop that ends a sentence. */
function firstOf(sentence: Sentence): Sentence {
  const end = sentenceText(sentence).search(fullStop);
  if (end < 0) return sentence;
  let room = end + 1;
  return sentence.flatMap((part) => {
    const text = (typeof part === "string" ? part : part.text).slice(0, room);
    room -= text.length;
    if (text === "") return [];
    return [typeof part === "string" ? text : { ...part, text }];
  });
}

/** Does it fit the line? */
export function isBrief(sentence: Sentence): boolean {
  const { length } = sentenceText(sentence);
  return length > 0 && length <= mostBriefCharacters;
}
