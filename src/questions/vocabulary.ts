import type { Vocabulary, Word } from "../formula/vocabulary.ts";
import { generalWords } from "../formula/words/general-words.ts";
import { attachmentCurve } from "./attachment-curve/attachment-curve.ts";
import { caseFlow } from "./case-flow.ts";
import { curveComparison } from "./curve-comparison.ts";
import { eyesFromWord } from "./eyes-from.ts";
import { failureCauses } from "./failure-causes.ts";
import { failureRate } from "./failure-rate/failure-rate.ts";
import { indexEyesWord } from "./index-eyes.ts";
import type { Question } from "./question.ts";
import { settingWords } from "./settings/setting-words.ts";

/** The audit questions, in the order in which a meeting asks them. */
export const questions: readonly Question[] = [
  failureRate,
  attachmentCurve,
  curveComparison,
  failureCauses,
  caseFlow,
];

/** Every word that a working can call. */
export const vocabulary: Vocabulary = new Map(
  [indexEyesWord, eyesFromWord, ...questions, ...settingWords, ...generalWords].map(
    (word: Word) => [word.name, word],
  ),
);
