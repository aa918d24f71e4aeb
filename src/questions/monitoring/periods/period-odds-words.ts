import type { FigureRecord } from "../../answer.ts";
import { count, counted, percent } from "../../answering/wording.ts";
import type { CountedPeriod } from "./counted-period.ts";
import { type PeriodOdds, periodOdds } from "./period-odds.ts";

/** The odds of periods as they are drawn. */
export function oddsOf(periods: readonly CountedPeriod[]): PeriodOdds {
  return periodOdds(
    periods.map(({ judged, point, centre }) => ({
      eyes: judged.known.length,
      limits: point,
      centre,
    })),
  );
}

/** How often a period lies outside by chance, and how soon a doubled rate would be noticed. */
export function periodOddsWords(
  periods: readonly CountedPeriod[],
  { falseWithin, runLengthInControl, runLengthDoubled }: PeriodOdds,
): string {
  const number = periods.filter(({ judged }) => judged.known.length > 0).length;
  const eyes = (value: number): string => counted(Math.round(value), "eye");
  const never = "where nothing has changed none can lie outside";
  const chance =
    runLengthInControl === null
      ? never
      : `where nothing has changed one lies outside by chance once in ${eyes(runLengthInControl)} on average, and with a probability of ${percent(falseWithin)} among these ${count(number)}`;
  const right =
    runLengthDoubled === null
      ? ""
      : `; where the rate is doubled from the first on, one lies above after ${eyes(runLengthDoubled)} on average`;
  return `With periods of these sizes, ${chance}${right}.`;
}

export function oddsFigures(odds: PeriodOdds): FigureRecord {
  return {
    false_signal_within: odds.falseWithin,
    run_length_in_control: odds.runLengthInControl,
    run_length_doubled: odds.runLengthDoubled,
  };
}
