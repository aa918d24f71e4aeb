/**
 * Profile-likelihood limits of a coefficient: the values at which twice the fall of the (penalised)
 * log-likelihood, maximised over all other coefficients, is the chi-square quantile of the level
 * (Venzon and Moolgavkar 1988). They exist where Wald's do not, and need not be symmetric.
 */
import { normalDeviate } from "./distributions.ts";
import { findRoot } from "./find-root.ts";

export interface Profile {
  readonly estimate: number;
  /** A unit of distance to search by: the coefficient's standard error, or the like. */
  readonly unit: number;
  readonly logLikelihood: number;
  /** The log-likelihood maximised with this coefficient held at a value. */
  readonly at: (value: number) => number;
}

/** The two limits; -Infinity or Infinity where the profile has not fallen that far in 128 units. */
export function profileLimits(profile: Profile, level: number): { lower: number; upper: number } {
  return { lower: limit(profile, -1, level), upper: limit(profile, 1, level) };
}

/**
 * Searched on the root of twice the fall, which is nearly a straight line: a few fits lead to its end.
 */
function limit(profile: Profile, side: 1 | -1, level: number): number {
  const deviate = normalDeviate(level);
  const known = new Map([[0, -deviate]]);
  const excess = (distance: number): number => {
    const found = known.get(distance) ?? fallAt(profile, side * distance) - deviate;
    known.set(distance, found);
    return found;
  };
  let reach = 2 * profile.unit;
  for (let doublings = 0; excess(reach) < 0; doublings++) {
    if (doublings === 6) return side * Infinity;
    reach *= 2;
  }
  const distance = findRoot(excess, { from: 0, to: reach, tolerance: 1e-10 * profile.unit });
  return profile.estimate + side * distance;
}

function fallAt({ logLikelihood, estimate, at }: Profile, distance: number): number {
  return Math.sqrt(Math.max(0, 2 * (logLikelihood - at(estimate + distance))));
}
