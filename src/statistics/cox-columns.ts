/**
 * Covariates in the order of the rows of a partial likelihood: picked, centred on their weighted means and
 * summed over the events, each value read twice. Centring changes no coefficient and keeps digits.
 */
import { sumOf, sumOfProducts } from "./column-sums.ts";
import { pickRows } from "./pick-rows.ts";

export interface CoxColumns {
  /** Centred, one column each. */
  readonly columns: readonly Float64Array[];
  readonly means: Float64Array;
  /** The root of the mean square about the mean, the unit in which the steps of a fit are measured. */
  readonly spread: Float64Array;
  /** Of each centred covariate the weighted sum over the rows with the event. */
  readonly eventSums: Float64Array;
}

export interface OrderedRows {
  readonly order: Int32Array;
  readonly weight: Float64Array;
  /** The weight of a row with the event, 0 for any other. */
  readonly eventWeight: Float64Array;
}

/** The covariates at the rows of `order`. */
export function coxColumns(
  covariates: readonly ArrayLike<number>[],
  rows: OrderedRows,
): CoxColumns {
  const total = sumOf(rows.weight);
  const columns = pickRows(covariates.map(asDoubles), rows.order);
  const means = new Float64Array(columns.length);
  const spread = new Float64Array(columns.length);
  const eventSums = new Float64Array(columns.length);
  columns.forEach((column, c) => {
    means[c] = total === 0 ? 0 : sumOfProducts(column, rows.weight) / total;
    const sums = centreOn(column, means[c]!, rows.eventWeight);
    spread[c] = column.length === 0 ? 0 : Math.sqrt(sums.squares / column.length);
    eventSums[c] = sums.events;
  });
  return { columns, means, spread, eventSums };
}

function asDoubles(values: ArrayLike<number>): Float64Array {
  return values instanceof Float64Array ? values : new Float64Array(values);
}

/** Centres the column, and sums its squares and, over the events, itself; two sums of each side by side. */
function centreOn(column: Float64Array, mean: number, eventWeight: Float64Array) {
  let [squares, otherSquares, events, otherEvents] = [0, 0, 0, 0];
  const whole = column.length & ~1;
  for (let i = 0; i < whole; i += 2) {
    const one = column[i]! - mean;
    const other = column[i + 1]! - mean;
    column[i] = one;
    column[i + 1] = other;
    squares += one * one;
    otherSquares += other * other;
    events += eventWeight[i]! * one;
    otherEvents += eventWeight[i + 1]! * other;
  }
  if (whole < column.length) {
    const last = column[whole]! - mean;
    column[whole] = last;
    squares += last * last;
    events += eventWeight[whole]! * last;
  }
  return { squares: squares + otherSquares, events: events + otherEvents };
}
