import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import type { Interval } from "../../statistics/interval.ts";
import { tooFewFailures } from "../modelling/model-faults.ts";
import { coxRates } from "./cox-rates.ts";
import { logisticRates } from "./logistic-rates.ts";
import type { ModelRates, StandardiseInput } from "./model-rates.ts";
import { type ResampledIntervals, resampledIntervals } from "./resampled-intervals.ts";
import { type Design, standardisationDesign } from "./standardisation-design.ts";

/** The rates that all eyes of the model would have had in each group, by the model. */
export interface Standardised {
  readonly groups: readonly StandardisedGroup[];
  readonly failures: number;
  /** Columns of the model: groups but one, and the levels of the terms. */
  readonly columns: number;
  /** That hazards are proportional: p of its test; null where the model does not rest on it. */
  readonly proportional: number | null;
}

export interface StandardisedGroup {
  readonly label: string;
  /** Eyes of the model in the group. */
  readonly eyes: readonly number[];
  readonly rate: Interval & { readonly estimate: number };
  /** Less the reference group; null for the reference itself. */
  readonly difference: (Interval & { readonly estimate: number; readonly p: number | null }) | null;
}

/**
 * A model of failure on group and terms; for each group the mean predicted risk of all eyes as if
 * all were in it. Limits by the delta method, or by the bootstrap of patients. A group or level in
 * which none or all failed has no estimate: a problem.
 */
export function standardise(
  input: StandardiseInput,
): { readonly standardised: Standardised } | { readonly problems: readonly Problem[] } {
  const { data, groups, reference, given, resampling, hasFailed, followUp } = input;
  const failures = data.eyes.filter(hasFailed).length;
  const spared = data.eyes.length - failures;
  const design = standardisationDesign(data, groups, reference);
  const rarer = followUp === undefined ? Math.min(failures, spared) : failures;
  const few = tooFewFailures({ ...data, columns: design.levels }, rarer, given);
  if (few.length > 0) return { problems: few };
  const made = followUp === undefined ? logisticRates(design, input) : coxRates(design, input);
  if ("problems" in made) return made;
  const sample = { rows: data.eyes.length, cluster: data.cluster, reference };
  const limits =
    resampling === undefined
      ? made.model.delta
      : resampledIntervals(made.model.ratesOn, { ...sample, ...resampling });
  if (limits === null || limits === undefined) return { problems: [cannotResample(given)] };
  const { proportional } = made.model;
  const columns = design.covariates.length;
  const groupsMade = groups.map((_, position) =>
    standardisedGroup(position, { input, design, model: made.model, limits }),
  );
  return { standardised: { failures, columns, proportional, groups: groupsMade } };
}

function standardisedGroup(
  position: number,
  made: {
    input: StandardiseInput;
    design: Design;
    model: ModelRates;
    limits: ResampledIntervals;
  },
): StandardisedGroup {
  const { input, design, model, limits } = made;
  const { data, groups, reference, resampling } = input;
  const estimate = model.rates[position] ?? Number.NaN;
  const [own, less] = [limits.rates[position], limits.differences[position]];
  if (own === undefined || less === undefined) throw new Error("a group has no limits");
  const p = resampling === undefined ? (model.delta?.differences[position]?.p ?? null) : null;
  return {
    label: groups[position]?.label ?? "",
    eyes: data.eyes.filter((eye) => design.members[position]?.has(eye)),
    rate: { ...own, estimate },
    difference:
      position === reference
        ? null
        : { ...less, estimate: estimate - (model.rates[reference] ?? Number.NaN), p },
  };
}

function cannotResample(given: GivenArguments): Problem {
  return {
    code: "resamples-without-estimate",
    severity: "stop",
    place: { span: given.values.get("interval")?.span ?? given.span },
    message: "more than one in twenty of the resamples have no finite estimate",
    expected: "more failures, or fewer terms",
    remedy: 'gather groups, or ask for the logistic model with interval: "delta"',
  };
}
