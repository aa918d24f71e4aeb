/**
 * The weights that tests of the log-rank family give to each event time, from the d events among the n at
 * risk there and, for two of them, at all times before; formulas and sources are in `log-rank.ts`.
 */
export type EventWeighting =
  | "log-rank"
  | "Gehan"
  | "Tarone-Ware"
  | "Peto"
  | { readonly rho: number; readonly gamma?: number };

/** A function that, called once per event time in order, gives its weight from d and n. */
export function eventWeights(
  weighting: EventWeighting,
): (events: number, atRisk: number) => number {
  if (weighting === "log-rank") return () => 1;
  if (weighting === "Gehan") return (_, atRisk) => atRisk;
  if (weighting === "Tarone-Ware") return (_, atRisk) => Math.sqrt(atRisk);
  if (weighting === "Peto") return petoWeights();
  return flemingHarringtonWeights(weighting.rho, weighting.gamma ?? 0);
}

function petoWeights(): (events: number, atRisk: number) => number {
  let survival = 1;
  return (events, atRisk) => {
    survival *= 1 - events / (atRisk + 1);
    return survival;
  };
}

function flemingHarringtonWeights(
  rho: number,
  gamma: number,
): (events: number, atRisk: number) => number {
  if (!(rho >= 0 && gamma >= 0 && rho < Infinity && gamma < Infinity)) {
    throw new RangeError(`rho is ${rho} and gamma ${gamma}; expected finite numbers of 0 or more`);
  }
  let survival = 1;
  return (events, atRisk) => {
    const weight = survival ** rho * (1 - survival) ** gamma;
    survival *= 1 - events / atRisk;
    return weight;
  };
}
