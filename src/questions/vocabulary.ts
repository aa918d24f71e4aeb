import type { Vocabulary, Word } from "../formula/vocabulary.ts";
import { generalWords } from "../formula/words/general-words.ts";
import { acuityChange } from "./acuity-change/acuity-change.ts";
import { afterFailure } from "./after-failure/after-failure.ts";
import { attachmentCurve } from "./attachment-curve/attachment-curve.ts";
import { caseFlow } from "./case-flow/case-flow.ts";
import { clockHours } from "./clock-hours/clock-hours.ts";
import { completeness } from "./completeness/completeness.ts";
import { curveComparison } from "./curve-comparison/curve-comparison.ts";
import { definitions } from "./definitions/definitions.ts";
import { eyesFromWord } from "./eyes-from.ts";
import { failureCauses } from "./failure-causes.ts";
import { failureIncidence } from "./failure-incidence/failure-incidence.ts";
import { failureRate } from "./failure-rate/failure-rate.ts";
import { followUp } from "./follow-up/follow-up.ts";
import { hazardModel } from "./hazard-model/hazard-model.ts";
import { indexEyesWord } from "./index-eyes.ts";
import { monitoringQuestions } from "./monitoring/monitoring-questions.ts";
import { peopleQuestions } from "./people/people-questions.ts";
import { pointsWord } from "./points.ts";
import { poolingQuestions } from "./pooling/pooling-questions.ts";
import type { Question } from "./question.ts";
import { rateDifference } from "./rate-difference/rate-difference.ts";
import { riskModel } from "./risk-model/risk-model.ts";
import { settingWords } from "./settings/setting-words.ts";
import { standard } from "./standard/standard.ts";
import { standardisedRate } from "./standardised-rate/standardised-rate.ts";
import { buckleWords } from "./suitability/buckle-words.ts";
import { suitability } from "./suitability/suitability.ts";
import { tableQuestions, tableWords } from "./tables/table-words.ts";

/** The audit questions, in the order in which a meeting asks them. */
export const questions: readonly Question[] = [
  failureRate,
  rateDifference,
  attachmentCurve,
  curveComparison,
  followUp,
  failureCauses,
  failureIncidence,
  hazardModel,
  riskModel,
  standardisedRate,
  definitions,
  afterFailure,
  acuityChange,
  clockHours,
  suitability,
  standard,
  caseFlow,
  completeness,
  ...peopleQuestions,
  ...monitoringQuestions,
  ...tableQuestions,
];

/** Every word that a working can call. */
export const vocabulary: Vocabulary = new Map(
  [
    indexEyesWord,
    eyesFromWord,
    ...questions,
    ...tableWords,
    ...buckleWords,
    pointsWord,
    ...settingWords,
    ...generalWords,
  ].map((word: Word) => [word.name, word]),
);

/** The same with the questions over aggregates, where the sheet is given `departments`. */
export const poolingVocabulary: Vocabulary = new Map([
  ...vocabulary,
  ...poolingQuestions.map((word): [string, Word] => [word.name, word]),
]);

/** What sheets over that vocabulary are fed from outside: cases of one's own, or aggregates. */
export const poolingInputs: ReadonlySet<string> = new Set(["cases", "departments"]);
