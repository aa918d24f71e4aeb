import type { Question } from "../question.ts";
import { cusum } from "./cusum/cusum.ts";

/** Is it changing: the questions about one person, or the unit, over time. */
export const monitoringQuestions: readonly Question[] = [cusum];
