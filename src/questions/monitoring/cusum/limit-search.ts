import { type CusumDesign, cusumRunLength } from "../../../statistics/cusum-run-length.ts";

const least = 1e-3;
const most = 1000;

/**
 * The limit whose chart runs the stated number of operations on average while nothing changes, with the
 * run length that it really has: of few kinds of steps run lengths come in jumps, and the longer of the
 * two about the one asked is taken. Null where no limit has it: where even the least runs longer, or
 * where the risks are so near 0 or 1 that the equations of the chain cannot be solved to any digit.
 */
export function limitSearch(
  design: CusumDesign,
  runLength: number,
): { readonly limit: number; readonly runLength: number } | null {
  const lengthAt = (limit: number): number => {
    const length = cusumRunLength(design, limit);
    return length >= 1 ? length : Number.POSITIVE_INFINITY;
  };
  if (lengthAt(least) > 2 * runLength) return null;
  let [below, above] = [least, 1];
  while (lengthAt(above) < runLength) {
    below = above;
    above *= 1.5;
    if (above > most) return null;
  }
  while (above - below > 1e-6 * above) {
    const middle = (above + below) / 2;
    if (lengthAt(middle) < runLength) below = middle;
    else above = middle;
  }
  const reached = lengthAt(above);
  return reached <= 3 * runLength ? { limit: above, runLength: reached } : null;
}
