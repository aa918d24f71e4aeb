/** What the tables of real coverage share: whether limits hold the truth, and how often over series. */

export interface Limits {
  readonly lower: number;
  readonly upper: number;
}

/** Whether limits hold the truth; null where there are none. */
export function holds(limits: Limits | null | undefined, truth: number): boolean | null {
  if (limits === null || limits === undefined) return null;
  if (Number.isNaN(limits.lower) || Number.isNaN(limits.upper)) return null;
  return limits.lower <= truth + 1e-9 && truth - 1e-9 <= limits.upper;
}

/** Whether a test at 5% rejects; null where there is none. */
export function rejects(pValue: number | null | undefined): boolean | null {
  return pValue === null || pValue === undefined || Number.isNaN(pValue)
    ? null
    : pValue <= 0.05 + 1e-12;
}

/** Whether it is so, or the share in which it is; null where nothing was to be had. */
export type Told = Readonly<Record<string, boolean | number | null>>;

/** The shares over so many series, each among those that had the interval or the test. */
export function sharesOver(replicates: number, series: () => Told): Record<string, number | null> {
  return sharesAndUnknown(replicates, series).shares;
}

/** Besides, in how many of the series there was none. */
export function sharesAndUnknown(replicates: number, series: () => Told) {
  const tallies = new Map<string, { known: number; sum: number }>();
  for (let r = 0; r < replicates; r++) {
    for (const [name, is] of Object.entries(series())) {
      const tally = tallies.get(name) ?? { known: 0, sum: 0 };
      if (is !== null) {
        tally.known++;
        tally.sum += Number(is);
      }
      tallies.set(name, tally);
    }
  }
  const shares: Record<string, number | null> = {};
  const unknown: Record<string, number> = {};
  for (const [name, { known, sum }] of tallies) {
    shares[name] = known === 0 ? null : sum / known;
    unknown[name] = 1 - known / replicates;
  }
  return { shares, unknown };
}
