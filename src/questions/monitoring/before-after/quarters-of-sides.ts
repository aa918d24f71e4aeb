import type { JudgedEyes } from "../../people/judged-eyes.ts";
import { type CountedPeriod, countedPeriods } from "../periods/counted-period.ts";
import { quarters } from "../periods/quarters.ts";
import type { TwoSides } from "./two-sides.ts";

/** The quarters of either side, each side around its own rate. */
export interface QuartersOfSides {
  readonly before: readonly CountedPeriod[];
  readonly after: readonly CountedPeriod[];
}

export function quartersOfSides(judged: JudgedEyes, sides: TwoSides): QuartersOfSides {
  const all = quarters(judged.record)?.groups ?? [];
  const of = (side: JudgedEyes): CountedPeriod[] => {
    const own = new Set([...side.known, ...side.unknown, ...side.tooRecent]);
    const groups = all
      .map(({ label, eyes }) => ({ label, eyes: eyes.filter((eye) => own.has(eye)) }))
      .filter(({ eyes }) => eyes.length > 0);
    return countedPeriods(groups, judged, { limits: "exact" });
  };
  return { before: of(sides.before), after: of(sides.after) };
}
