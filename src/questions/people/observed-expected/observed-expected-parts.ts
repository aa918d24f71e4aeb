import type { EffectIntervals } from "../../../charts/effect-intervals.ts";
import type { BetaBinomialFit } from "../../../statistics/beta-binomial.ts";
import type { RatioLimits } from "../exact-ratio.ts";
import type { Expectation } from "../expectation.ts";
import type { JudgedEyes } from "../judged-eyes.ts";
import type { PersonResult } from "./person-result.ts";

/** What the sentence, the table and the chart of observed and expected are all made from. */
export interface ComparisonParts {
  /** All known, unknown and too recent eyes of the unit. */
  readonly judged: JudgedEyes;
  /** What the eyes are split by: "surgeon". */
  readonly label: string;
  readonly expectation: Expectation;
  /** The rate that adjusted rates are on: the unit's own, or the paper's for the unit's eyes. */
  readonly standard: number;
  /** Those shown, in the order of their codes, or where names are hidden of the number of eyes. */
  readonly people: readonly PersonResult[];
  /** How many there are. */
  readonly all: number;
  readonly mine: string | undefined;
  /** Nobody stands under a code, and nobody's eyes can be opened. */
  readonly areNamesHidden: boolean;
  readonly silent: readonly number[];
  readonly model: BetaBinomialFit | null;
  readonly limits: RatioLimits;
}

/** The rate that adjusted rates are on; of no eyes it is 0. */
export function standardRate({ known, hasFailed }: JudgedEyes, expectation: Expectation): number {
  if (expectation.kind !== "published") {
    return known.length === 0 ? 0 : known.filter(hasFailed).length / known.length;
  }
  const risks = known
    .map((eye) => expectation.risk.at(eye))
    .filter((risk) => typeof risk === "number");
  return risks.length === 0 ? 0 : risks.reduce((sum, risk) => sum + risk, 0) / risks.length;
}

/** The rest of the unit, whose own ratio would be of themselves to themselves. */
export function restOf({ judged, people, mine, all }: ComparisonParts) {
  if (mine === undefined || all < 2) return undefined;
  const own = new Set(
    people.flatMap(({ judged: { known, unknown, tooRecent } }) => [
      ...known,
      ...unknown,
      ...tooRecent,
    ]),
  );
  const others = (eyes: readonly number[]) => eyes.filter((eye) => !own.has(eye));
  const known = others(judged.known);
  return {
    known,
    failedEyes: known.filter(judged.hasFailed),
    unknown: others(judged.unknown),
    tooRecent: others(judged.tooRecent),
  };
}

/** People as "no. 1", "no. 2", in the order of the number of known eyes. */
export function withoutNames(people: readonly PersonResult[]): PersonResult[] {
  const known = (person: PersonResult) => person.judged.known.length;
  return [...people]
    .sort((a, b) => known(b) - known(a) || (a.rate ?? 0) - (b.rate ?? 0))
    .map((person, position) => ({ ...person, label: `no. ${position + 1}` }));
}

/** The ratios as they are drawn, under the same picks as the table. */
export function drawnRatios({
  label: splitBy,
  people,
  areNamesHidden,
}: ComparisonParts): EffectIntervals {
  return {
    scale: "ratio",
    splitBy,
    measure: "ratio",
    counted: "expected",
    sides: { below: "fewer than expected", above: "more than expected" },
    rows: people.map(({ label, ratio, observed }, position) => ({
      label,
      count: ratio === null ? "–" : `${observed} of ${ratio.expected.toFixed(1)}`,
      estimate: ratio?.estimate ?? null,
      lower: ratio?.lower ?? null,
      upper: ratio?.upper ?? null,
      ...(observed === 0 || areNamesHidden ? {} : { pick: `p${position}:observed` }),
    })),
  };
}
