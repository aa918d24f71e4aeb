import { type Answer, type Sentence, sentenceText } from "../../questions/answer.ts";

/** A sentence for a room: what is read from afar, and what stands smaller below it. */
export interface SplitSentence {
  readonly brief: Sentence;
  readonly rest: Sentence;
}

/** The answer's own brief and its whole sentence below; without one, its sentence split. */
export function sentencesOf({ brief, sentence }: Answer): SplitSentence {
  if (brief === undefined) return splitSentence(sentence);
  return { brief, rest: sentenceText(brief) === sentenceText(sentence) ? [] : sentence };
}

/** A full stop that ends a sentence: followed by a space and a capital or a number. */
const fullStop = /\.\s+(?=[\p{Lu}\d“"(])/u;

/** Splits an answer's sentence behind its first full stop; the rest is empty where it has one. */
export function splitSentence(sentence: Sentence): SplitSentence {
  const texts = sentence.map((part) => (typeof part === "string" ? part : part.text));
  const whole = texts.join("");
  const stop = fullStop.exec(whole);
  if (stop === null) return { brief: sentence, rest: [] };
  const at = stop.index + 1;
  const next = stop.index + stop[0].length;
  return { brief: between(sentence, 0, at), rest: between(sentence, next, whole.length) };
}

/** The parts between two places of the whole; a part that is cut keeps what it opens. */
function between(sentence: Sentence, from: number, to: number): Sentence {
  let place = 0;
  return sentence.flatMap((part) => {
    const text = typeof part === "string" ? part : part.text;
    const start = place;
    place += text.length;
    const kept = text.slice(Math.max(0, from - start), Math.max(0, to - start));
    if (kept === "") return [];
    return [typeof part === "string" ? kept : { ...part, text: kept }];
  });
}
