/**
 * The value below which a share of ordered values lies, between the two nearest by straight
 * line, at 1 + (n - 1) share: definition 7 of R. J. Hyndman and Y. Fan, The American Statistician
 * 1996;50:361-365. Missing for no values.
 */
export function quantile(ordered: readonly number[], share: number): number | null {
  const place = (ordered.length - 1) * share;
  const below = ordered[Math.floor(place)];
  const above = ordered[Math.ceil(place)];
  if (below === undefined || above === undefined) return null;
  return below + (above - below) * (place - Math.floor(place));
}
