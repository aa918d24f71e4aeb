/** Median and quartiles of numbers. */
export interface Quartiles {
  readonly lower: number;
  readonly median: number;
  readonly upper: number;
}

/**
 * Median and quartiles, on a straight line between the two nearest values at place 1 + (n - 1) p of
 * the ordered list (definition 7 of Hyndman and Fan, The American Statistician 1996;50:361). Null
 * for no values.
 */
export function quartiles(values: readonly number[]): Quartiles | null {
  if (values.length === 0) return null;
  const ordered = [...values].sort((a, b) => a - b);
  const at = (share: number): number => {
    const place = (ordered.length - 1) * share;
    const below = ordered[Math.floor(place)] ?? 0;
    const above = ordered[Math.ceil(place)] ?? 0;
    return below + (above - below) * (place - Math.floor(place));
  };
  return { lower: at(0.25), median: at(0.5), upper: at(0.75) };
}
