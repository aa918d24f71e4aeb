import type { CaseReading } from "../cases/case-reading.ts";
import type { EyeRecord } from "./eye-record.ts";
import { type EyeSelection, indexEyes } from "./index-eyes.ts";
import {
  type FailureDefinition,
  failureDefinitions,
  type OilTreatment,
  type OutcomeRules,
  oilTreatments,
  type UndecidedTreatment,
} from "./outcome-rules.ts";

/** One way of counting failures. */
export interface WayOfCounting {
  readonly failure: FailureDefinition;
  /** Null where the definition leaves no choice: under oil the eye has failed by definition. */
  readonly oil: OilTreatment | null;
  readonly undecided: UndecidedTreatment;
}

/** `bounds` and `censored` follow an undecided eye alike. */
const undecidedApart: readonly UndecidedTreatment[] = ["censored", "failed", "attached"];

/** Every way that can differ from the others: 3 definitions by 4 by 3, and 1 by 3. */
export const waysOfCounting: readonly WayOfCounting[] = failureDefinitions.flatMap((failure) =>
  oilChoices(failure).flatMap((oil) =>
    undecidedApart.map((undecided) => ({ failure, oil, undecided })),
  ),
);

export function oilChoices(failure: FailureDefinition): readonly (OilTreatment | null)[] {
  return failure === "not attached without oil" ? [null] : oilTreatments;
}

/** The same eyes followed under every way of counting. */
export interface CountedEveryWay {
  /** Under the rules chosen; its table is the one to split the eyes by. */
  readonly chosen: EyeRecord;
  under(way: WayOfCounting): EyeRecord;
}

/**
 * Follows the eyes of the cases under the rules chosen and, each when first asked for, under every
 * other way with the same window. Eyes stand in the same order in all, since which eyes there are
 * depends on the selection alone.
 */
export function countEveryWay(
  reading: CaseReading,
  chosen: OutcomeRules,
  selection: EyeSelection = {},
): CountedEveryWay {
  const done = new Map<string, EyeRecord>();
  const under = ({ failure, oil, undecided }: WayOfCounting): EyeRecord => {
    const key = `${failure}/${oil}/${undecided}`;
    const known = done.get(key);
    if (known !== undefined) return known;
    const rules = { ...chosen, failure, oil: oil ?? chosen.oil, undecided };
    const record = indexEyes(reading, rules, selection);
    done.set(key, record);
    return record;
  };
  return { chosen: under(chosen), under };
}
