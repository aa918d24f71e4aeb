import { columnNamed } from "../../../cases/table.ts";
import type { GivenArguments } from "../../../formula/vocabulary.ts";
import type { EyeRecord } from "../../../outcomes/eye-record.ts";
import type { Problem } from "../../../problem/problem.ts";
import type { Caution } from "../../answer.ts";
import { type BoundTerm, boundTerms } from "../../modelling/bound-term.ts";
import { termNamesOf } from "../../people/expectation.ts";
import { expectedModelCautions } from "../../people/expected-model-cautions.ts";
import { expectedRisks } from "../../people/expected-risks.ts";
import { among, type JudgedEyes } from "../../people/judged-eyes.ts";
import type { OnePerson } from "../../people/one-person.ts";
import { cannotBeExpected } from "../../people/people-cautions.ts";

/** How hard an eye is: a mean over eyes is set beside their rate. */
export interface Difficulty {
  /** "mean risk by age and PVR grade", "recorded risk factors, mean". */
  readonly label: string;
  readonly isShare: boolean;
  readonly of: (eye: number) => number | null;
}

export interface DifficultyFound {
  /** Undefined where nothing tells it. */
  readonly difficulty: Difficulty | undefined;
  /** The columns it rests on. */
  readonly names: readonly string[];
  readonly cautions: readonly Caution[];
}

/** The risk that a model of others' eyes tells, or without terms the number of recorded factors. */
export function difficultyOfEyes(
  judged: JudgedEyes,
  person: OnePerson,
  given: GivenArguments,
): DifficultyFound | { readonly problems: readonly Problem[] } {
  const found = boundTerms(judged.record, given);
  if ("problems" in found) return found;
  const { bound: terms } = found;
  if (terms.length > 0) return riskByOthers(judged, person, terms);
  return { difficulty: recordedFactors(judged.record), names: ["risk_factors"], cautions: [] };
}

function riskByOthers(
  judged: JudgedEyes,
  { code, eyes, otherPeople }: OnePerson,
  terms: readonly BoundTerm[],
): DifficultyFound | { readonly problems: readonly Problem[] } {
  const told = expectedRisks(judged, { kind: "model", terms });
  if ("problems" in told) return told;
  const untold = (why: string): DifficultyFound => ({
    difficulty: undefined,
    names: [],
    cautions: cannotBeExpected([{ label: code, why }]),
  });
  if (otherPeople === 1) return untold("it would tell the results of one other surgeon");
  const risks = told.risksOf(among(judged, eyes).known);
  if ("cannot" in risks) return untold(risks.cannot);
  const riskOf = new Map(risks.eyes.map((eye, i) => [eye, risks.risks[i] ?? 0]));
  const label = `mean risk by ${termNamesOf(terms)}`;
  return {
    difficulty: { label, isShare: true, of: (eye) => riskOf.get(eye) ?? null },
    names: terms.flatMap(({ names }) => names),
    cautions: expectedModelCautions([risks.model]),
  };
}

function recordedFactors(record: EyeRecord): Difficulty | undefined {
  const values = columnNamed(record.table, "risk_factors")?.values;
  if (values === undefined) return undefined;
  return {
    label: "recorded risk factors, mean",
    isShare: false,
    of: (eye) => {
      const value = values[eye];
      return typeof value === "number" ? value : null;
    },
  };
}
