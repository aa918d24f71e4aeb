/**
 * Outcome and covariates arranged for logistic regression: columns, with the intercept, a column of ones,
 * first. A row's weight counts it so many times; its offset is a known part of its log odds. Covariates
 * are taken as they are; their standard deviations are kept, by which the steps of a fit are measured.
 */
import { readEvent, requireNumbers, requireSameLength } from "./argument-checks.ts";
import { readWeight } from "./event-tally.ts";
import { standardDeviation } from "./standard-deviation.ts";

export interface LogisticInput {
  /** 1 or true where the event happened, 0 or false where not. */
  readonly outcome: ArrayLike<number | boolean>;
  readonly covariates: readonly ArrayLike<number>[];
  /** The covariates' names; x1, x2, ... unless given. */
  readonly names?: readonly string[];
  readonly weight?: ArrayLike<number>;
  /** A known part of the log odds of each row. */
  readonly offset?: ArrayLike<number>;
}

export interface LogisticData {
  readonly rows: number;
  /** Weighted events. */
  readonly events: number;
  readonly outcome: Float64Array;
  readonly weight: Float64Array;
  readonly offset: Float64Array;
  readonly columns: readonly Float64Array[];
  readonly names: readonly string[];
  /** The standard deviation of each column, by which steps are measured; 1 for the intercept. */
  readonly spread: Float64Array;
}

/** Arranges the input; refuses missing values and columns of different lengths, by name. */
export function logisticData(input: LogisticInput): LogisticData {
  const { outcome, covariates, weight, offset } = input;
  const rows = outcome.length;
  const names = covariates.map((_, c) => input.names?.[c] ?? `x${c + 1}`);
  requireSameLength({ outcome, weight, offset });
  covariates.forEach((column, c) => {
    requireSameLength({ outcome, [names[c]!]: column });
    requireNumbers(names[c]!, column);
  });
  if (offset !== undefined) requireNumbers("offset", offset);
  const columns = [new Float64Array(rows).fill(1), ...covariates.map((c) => new Float64Array(c))];
  const events = new Float64Array(rows);
  const weights = new Float64Array(rows);
  for (let i = 0; i < rows; i++) {
    events[i] = readEvent(outcome[i], i);
    weights[i] = readWeight(weight, i);
  }
  return {
    rows,
    events: weightedSum(events, weights),
    outcome: events,
    weight: weights,
    offset: offset === undefined ? new Float64Array(rows) : new Float64Array(offset),
    columns,
    names: ["intercept", ...names],
    spread: Float64Array.from(columns, (column, c) => (c === 0 ? 1 : standardDeviation(column))),
  };
}

function weightedSum(values: Float64Array, weights: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]! * weights[i]!;
  return sum;
}
