/**
 * Covariates in the order of the rows of a partial likelihood: picked, centred on their weighted means and
 * summed over the events, each value read twice. Centring changes no coefficient and keeps digits.
 */
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
  const columns: Float64Array[] = [];
  const means = new Float64Array(covariates.length);
  const spread = new Float64Array(covariates.length);
  const eventSums = new Float64Array(covariates.length);
  covariates.forEach((covariate, c) => {
    const column = new Float64Array(rows.order.length);
    const sum = pick(column, covariate, rows);
    means[c] = total === 0 ? 0 : sum / total;
    const sums = centreOn(column, means[c]!, rows.eventWeight);
    spread[c] = column.length === 0 ? 0 : Math.sqrt(sums.squares / column.length);
    eventSums[c] = sums.events;
    columns.push(column);
  });
  return { columns, means, spread, eventSums };
}

function sumOf(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return sum;
}

/** Fills the column and gives its weighted sum. */
function pick(
  column: Float64Array,
  covariate: ArrayLike<number>,
  { order, weight }: OrderedRows,
): number {
  let sum = 0;
  for (let i = 0; i < column.length; i++) {
    const value = covariate[order[i]!]!;
    column[i] = value;
    sum += weight[i]! * value;
  }
  return sum;
}

/** Centres the column, and sums its squares and, over the events, itself. */
function centreOn(column: Float64Array, mean: number, eventWeight: Float64Array) {
  let squares = 0;
  let events = 0;
  for (let i = 0; i < column.length; i++) {
    const value = column[i]! - mean;
    column[i] = value;
    squares += value * value;
    events += eventWeight[i]! * value;
  }
  return { squares, events };
}
