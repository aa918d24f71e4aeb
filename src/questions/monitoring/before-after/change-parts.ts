import { dayText } from "../../../formula/calendar.ts";
import { wilsonInterval } from "../../../statistics/wilson-interval.ts";
import type { FigureRecord } from "../../answer.ts";
import { effectFigures } from "../../answering/effect-cells.ts";
import type { JudgedEyes } from "../../people/judged-eyes.ts";
import { oddsFigures, oddsOf } from "../periods/period-odds-words.ts";
import type { QuartersOfSides } from "./quarters-of-sides.ts";
import type { ExpectedAfter, SidesCompared, TwoSides } from "./two-sides.ts";

/** What the sentence, the table and the chart of before and after are all made from. */
export interface ChangeParts {
  readonly judged: JudgedEyes;
  readonly day: number;
  readonly sides: TwoSides;
  readonly compared: SidesCompared;
  readonly quarters: QuartersOfSides;
  readonly adjusted: ExpectedAfter | undefined;
  /** What the adjusted figure allows for. */
  readonly terms: string;
  readonly names: readonly string[];
}

/** The two sides with their counts and rates, before first. */
export function namedSides({ sides, day }: ChangeParts) {
  const text = dayText(day);
  return [
    { key: "before", label: `before ${text}`, eyes: sides.before },
    { key: "after", label: `from ${text} on`, eyes: sides.after },
  ].map((side) => {
    const failed = side.eyes.known.filter(side.eyes.hasFailed);
    const interval = wilsonInterval(failed.length, side.eyes.known.length);
    const rate = side.eyes.known.length === 0 ? null : failed.length / side.eyes.known.length;
    return { ...side, failed, rate, interval };
  });
}

export function changeFigures(parts: ChangeParts): FigureRecord {
  const { compared, adjusted, day, quarters } = parts;
  const [before, after] = namedSides(parts);
  return {
    on: dayText(day),
    headline: `${before?.failed.length ?? 0} of ${before?.eyes.known.length ?? 0}, then ${after?.failed.length ?? 0} of ${after?.eyes.known.length ?? 0}`,
    headline_rate: after?.rate ?? null,
    before_eyes: before?.eyes.known.length ?? 0,
    before_failed: before?.failed.length ?? 0,
    before_rate: before?.rate ?? null,
    after_eyes: after?.eyes.known.length ?? 0,
    after_failed: after?.failed.length ?? 0,
    after_rate: after?.rate ?? null,
    ...effectFigures("difference", compared.difference),
    p: compared.exact?.pTwoSided ?? null,
    ...oddsFigures(oddsOf([...quarters.before, ...quarters.after])),
    ...(adjusted === undefined
      ? {}
      : {
          expected_after: adjusted.ratio?.expected ?? null,
          ...effectFigures("ratio", adjusted.ratio),
        }),
  };
}
