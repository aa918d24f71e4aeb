import type { Question } from "../question.ts";
import { beforeAfter } from "./before-after/before-after.ts";
import { cusum } from "./cusum/cusum.ts";
import { learningCurve } from "./learning-curve/learning-curve.ts";
import { observedMinusExpected } from "./observed-minus-expected/observed-minus-expected.ts";
import { periods } from "./periods/periods.ts";

/** Is it changing: the questions about one person, or the unit, over time. */
export const monitoringQuestions: readonly Question[] = [
  cusum,
  observedMinusExpected,
  learningCurve,
  periods,
  beforeAfter,
];
