/** Maximum-likelihood logistic regression by Newton's method; the first column is the constant. */
export function logisticFit(
  rows: readonly (readonly number[])[],
  events: readonly boolean[],
): { readonly estimates: readonly number[]; readonly standardErrors: readonly number[] } {
  const size = rows[0]!.length;
  let estimates = Array.from({ length: size }, () => 0);
  for (let step = 0; step < 12; step++) {
    const { score, information } = derivatives(rows, events, estimates);
    const inverse = invert(information);
    const change = inverse.map((line) => dot(line, score));
    estimates = estimates.map((value, index) => value + change[index]!);
  }
  const inverse = invert(derivatives(rows, events, estimates).information);
  return { estimates, standardErrors: inverse.map((line, index) => Math.sqrt(line[index]!)) };
}

function derivatives(
  rows: readonly (readonly number[])[],
  events: readonly boolean[],
  estimates: readonly number[],
) {
  const score = estimates.map(() => 0);
  const information = estimates.map(() => estimates.map(() => 0));
  rows.forEach((row, index) => {
    const probability = 1 / (1 + Math.exp(-dot(row, estimates)));
    const residual = (events[index] ? 1 : 0) - probability;
    row.forEach((value, j) => {
      score[j]! += value * residual;
      row.forEach((other, k) => {
        information[j]![k]! += value * other * probability * (1 - probability);
      });
    });
  });
  return { score, information };
}

/** Inverse of a symmetric positive definite matrix, by Gauss and Jordan. */
function invert(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const size = matrix.length;
  const work = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let pivot = 0; pivot < size; pivot++) {
    const scale = work[pivot]![pivot]!;
    work[pivot] = work[pivot]!.map((value) => value / scale);
    for (let i = 0; i < size; i++) {
      if (i === pivot) continue;
      const factor = work[i]![pivot]!;
      work[i] = work[i]!.map((value, j) => value - factor * work[pivot]![j]!);
    }
  }
  return work.map((row) => row.slice(size));
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, index) => sum + value * b[index]!, 0);
}
