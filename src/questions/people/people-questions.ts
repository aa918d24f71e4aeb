import type { Question } from "../question.ts";
import { enoughCasesQuestion } from "./enough-cases.ts";
import { funnel } from "./funnel/funnel.ts";
import { myEyes } from "./my-eyes/my-eyes.ts";
import { observedExpected } from "./observed-expected/observed-expected.ts";

/** Who, compared with what: the questions about people. */
export const peopleQuestions: readonly Question[] = [
  observedExpected,
  funnel,
  enoughCasesQuestion,
  myEyes,
];
