import type { Question } from "../question.ts";
import { pooledCurve } from "./pooled-curve.ts";
import { pooledDifference } from "./pooled-difference/pooled-difference.ts";
import { pooledFunnel } from "./pooled-funnel/pooled-funnel.ts";
import { pooledIncidence } from "./pooled-incidence.ts";
import { pooledRate } from "./pooled-rate/pooled-rate.ts";

/** The questions that are answered from the aggregates of several departments. */
export const poolingQuestions: readonly Question[] = [
  pooledRate,
  pooledDifference,
  pooledCurve,
  pooledIncidence,
  pooledFunnel,
];
