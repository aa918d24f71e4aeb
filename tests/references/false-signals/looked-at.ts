import { ask } from "../../questions/ask.ts";
import { eyesOf } from "../../questions/groups-of-eyes.ts";
import { drawnUnit, settings } from "./drawn-unit.ts";

/** What the questions said of one unit. */
export interface LookedAt {
  /** Expected from the true risks, and from a model of the other five surgeons' eyes. */
  readonly published: { readonly worse: Watched; readonly better: Watched };
  readonly modelled: { readonly worse: Watched; readonly better: Watched };
  /** With the odds of A's eyes doubled from the first on. */
  readonly doubled: Watched;
  /** Whether a rate of 14% was called reached where 7% is, against 14% that is not. */
  readonly reached: Watched;
  /** Of six surgeons, by rate and by observed over expected. */
  readonly outside95: number;
  readonly outside998: number;
  readonly apart: number;
}

/** Whether it signalled within the operations, and the probability that the answer states. */
export interface Watched {
  readonly signalled: boolean;
  readonly stated: number;
}

type Eyes = ReturnType<typeof eyesOf>;
type Direction = Readonly<Record<string, number>> & { readonly signals: readonly unknown[] };

const trueRisks = 'surgeon: "A", expected: clock_hours_detached / 100, source: "the true risks"';

/** The questions asked of one unit, as a sheet asks them. */
export function lookedAt(unit: number): LookedAt {
  const eyes = eyesOf(drawnUnit(unit).map((row) => ({ ...row })));
  const changed = eyesOf(drawnUnit(unit, 2).map((row) => ({ ...row })));
  const rates = ask("funnel(eyes, by: surgeon, target: 14%)", { eyes }).figures;
  const { groups } = ask("observed_expected(eyes, pvr_grade, by: surgeon)", { eyes })
    .figures as unknown as { readonly groups: readonly Readonly<Record<string, number>>[] };
  return {
    published: watched(eyes, trueRisks),
    modelled: watched(eyes, 'pvr_grade, surgeon: "A"'),
    doubled: watched(changed, trueRisks, "noticed_within").worse,
    reached: reached(eyes),
    outside95: Number(rates.above_95) + Number(rates.below_95),
    outside998: Number(rates.above_998) + Number(rates.below_998),
    apart: groups.filter((group) => isApart(group)).length,
  };
}

function isApart({ ratio_lower = 0, ratio_upper = 0 }: Readonly<Record<string, number>>): boolean {
  return ratio_lower > 1 || ratio_upper < 1;
}

function watched(eyes: Eyes, expected: string, stated = "false_signal_within") {
  const working = `cusum(eyes, ${expected}, run_length: ${settings.runLength})`;
  const { worse, better } = ask(working, { eyes }).figures as unknown as Readonly<
    Record<"worse" | "better", Direction>
  >;
  const one = (direction: Direction): Watched => ({
    signalled: direction.signals.length > 0,
    stated: Number(direction[stated]),
  });
  return { worse: one(worse), better: one(better) };
}

function reached(eyes: Eyes): Watched {
  const design = `acceptable: 7%, unacceptable: 14%, source: "invented", operations: ${settings.eyesEach}`;
  const figures = ask(`learning_curve(eyes, trainee: "A", ${design})`, { eyes }).figures;
  const evidence = figures.evidence as unknown as readonly number[];
  return {
    signalled: Math.max(...evidence) >= Number(figures.limit_reached),
    stated: Number(figures.wrongly_reached),
  };
}
