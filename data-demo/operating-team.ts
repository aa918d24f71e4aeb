import type { EyeBefore } from "./eye-before.ts";
import type { Random } from "./random.ts";
import { dayOf } from "./theatre-day.ts";
import { drift, learning, type Operator, operatorOddsRatios, operators } from "./truth.ts";

/** Who operated, and how far on their own. */
export interface Team {
  readonly surgeon: string;
  readonly grade: Operator["grade"];
  readonly supervision:
    | "independent"
    | "supervised unscrubbed"
    | "supervised scrubbed"
    | "performed in part";
  readonly supervisor: string | null;
}

/** The surgeon of a primary repair: trainees are given fewer of the complex eyes. */
export function chooseSurgeon(random: Random, eye: EyeBefore): Operator {
  const complex = eye.pvr.grade === "C" || eye.kind === "giant tear" || eye.kind === "macular hole";
  return random.weighted(
    operators.map((operator) => [operator, complex ? operator.complexShare : operator.share]),
  );
}

/** Consultants do the later operations, a fellow now and then. */
export function chooseReoperator(random: Random): Operator {
  return random.weighted(
    operators.map((operator) => [
      operator,
      operator.grade === "trainee" ? 0 : operator.complexShare,
    ]),
  );
}

/** `progress` is the share of the trainee's repairs behind them, from 0 to 1. */
export function teamOf(random: Random, operator: Operator, progress: number): Team {
  const supervision = drawSupervision(random, operator, progress);
  const supervisor =
    supervision === "independent"
      ? null
      : random.weighted<string>([
          ["A", 4],
          ["B", 4],
          ["C", 3],
          ["E", 2],
        ]);
  return { surgeon: operator.code, grade: operator.grade, supervision, supervisor };
}

function drawSupervision(
  random: Random,
  { grade }: Operator,
  progress: number,
): Team["supervision"] {
  if (grade === "consultant") return "independent";
  if (grade === "fellow") return random.chance(0.88) ? "independent" : "supervised unscrubbed";
  return random.weighted<Team["supervision"]>([
    ["performed in part", 35 * (1 - progress) + 2],
    ["supervised scrubbed", 55 - 15 * progress],
    ["supervised unscrubbed", 8 + 30 * progress],
    ["independent", progress < 0.4 ? 0 : 16 * progress],
  ]);
}

const driftFrom = dayOf(drift.from);

/**
 * True log odds of failure against an average surgeon, for a repair on a day that is the
 * `order`th (from 1) of this operator. `scale` is the size of the file against the demo's.
 */
export function operatorLogOdds(
  code: string,
  { day, order, scale }: { readonly day: number; readonly order: number; readonly scale: number },
): number {
  const steady = Math.log(operatorOddsRatios.get(code) ?? 1);
  if (code === drift.surgeon && day >= driftFrom) return steady + Math.log(drift.oddsRatio);
  if (code !== learning.trainee) return steady;
  const halvings = (order - 1) / (learning.repairsToHalve * scale);
  return steady + Math.log(learning.firstOddsRatio) * 0.5 ** halvings;
}
