import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import type { Interval } from "../../statistics/interval.ts";
import { type LogisticFit, logisticRegression } from "../../statistics/logistic-regression.ts";
import type { ComparisonEstimate } from "../../statistics/newcombe-difference.ts";
import {
  standardisedDifference,
  standardisedRate,
} from "../../statistics/regression-standardisation.ts";
import type { Group } from "../answering/grouping.ts";
import { listed } from "../answering/wording.ts";
import { columnText, type ModelData } from "../modelling/model-data.ts";
import { collinear, tooFewFailures } from "../modelling/model-faults.ts";
import {
  type ResampledIntervals,
  type Resampling,
  resampledIntervals,
} from "./resampled-intervals.ts";
import { type Design, standardisationDesign } from "./standardisation-design.ts";

/** The rates that all eyes of the model would have had in each group, by the model. */
export interface Standardised {
  readonly groups: readonly StandardisedGroup[];
  readonly failures: number;
  /** Columns of the model: groups but one, and the levels of the terms. */
  readonly columns: number;
}

export interface StandardisedGroup {
  readonly label: string;
  /** Eyes of the model in the group. */
  readonly eyes: readonly number[];
  readonly rate: Interval & { readonly estimate: number };
  /** Less the reference group; null for the reference itself. */
  readonly difference: (ComparisonEstimate & { readonly pValue: number | null }) | null;
}

export interface StandardiseInput {
  /** The terms, over eyes that are in one of the groups. */
  readonly data: ModelData;
  readonly groups: readonly Group[];
  readonly reference: number;
  readonly hasFailed: (eye: number) => boolean;
  /** Undefined: limits by the delta method. */
  readonly resampling: Resampling | undefined;
  readonly given: GivenArguments;
}

/**
 * Logistic regression on group and terms; for each group the mean predicted risk of all eyes as if
 * all were in it. Limits by the delta method, robust by patient where patients give two eyes, or by
 * the bootstrap of patients. A group or level in which none or all failed has no estimate: a
 * problem.
 */
export function standardise(
  input: StandardiseInput,
): { readonly standardised: Standardised } | { readonly problems: readonly Problem[] } {
  const { data, groups, reference, given, resampling } = input;
  const outcome = data.eyes.map(input.hasFailed);
  const failures = outcome.filter(Boolean).length;
  const design = standardisationDesign(data, groups, reference);
  const rarer = Math.min(failures, outcome.length - failures);
  const few = tooFewFailures({ ...data, columns: design.levels }, rarer, given);
  if (few.length > 0) return { problems: few };
  const cluster = data.cluster === undefined ? {} : { cluster: data.cluster };
  const { covariates, names } = design;
  const fit = logisticRegression({ outcome, covariates, names: [...names], ...cluster });
  const problems = faultsOf(fit, input);
  if (problems.length > 0) return { problems };
  const resampled =
    resampling === undefined
      ? undefined
      : resampledIntervals(design, { outcome, reference, ...cluster, ...resampling });
  if (resampled === null) return { problems: [cannotResample(given)] };
  const made = { fit, design, resampled, isClustered: data.cluster !== undefined };
  return {
    standardised: { failures, columns: covariates.length, groups: groupsOf(input, made) },
  };
}

interface Made {
  readonly fit: LogisticFit;
  readonly design: Design;
  readonly resampled: ResampledIntervals | undefined;
  readonly isClustered: boolean;
}

function groupsOf({ groups, reference }: StandardiseInput, made: Made): StandardisedGroup[] {
  const { fit, design, resampled, isClustered } = made;
  const method = isClustered ? "delta, robust by patient" : "delta";
  const rates = design.scenarios.map((scenario) => standardisedRate(fit, scenario));
  const against = rates[reference];
  return groups.map((group, position): StandardisedGroup => {
    const own = rates[position];
    if (own === undefined || against === undefined) throw new Error("a group has no scenario");
    const { rate: estimate, lower, upper, level } = own;
    const limits = resampled?.differences[position];
    return {
      label: group.label,
      eyes: group.eyes.filter((eye) => design.members[position]?.has(eye)),
      rate: { estimate, lower, upper, level, method, ...resampled?.rates[position] },
      difference:
        position === reference
          ? null
          : differenceOf(fit, { first: own, second: against, limits, method }),
    };
  });
}

function faultsOf(fit: LogisticFit, input: StandardiseInput): Problem[] {
  const named = (name: string): string => nameOf(input, name);
  const { data, given } = input;
  return [...collinear(data, fit.aliased.map(named), given), ...separated(fit, { named, given })];
}

function differenceOf(
  fit: LogisticFit,
  of: {
    first: ReturnType<typeof standardisedRate>;
    second: ReturnType<typeof standardisedRate>;
    limits: Interval | undefined;
    method: string;
  },
): NonNullable<StandardisedGroup["difference"]> {
  const { standardError: _, ...difference } = standardisedDifference(fit, of);
  if (of.limits === undefined) return { ...difference, method: of.method };
  return { ...difference, ...of.limits, pValue: null };
}

/** The group or the level that a column of the model is. */
function nameOf({ data, groups }: StandardiseInput, name: string): string {
  const position = /^g(\d+)$/.exec(name)?.[1];
  return position === undefined
    ? columnText(data, name)
    : (groups[Number(position)]?.label ?? name);
}

function separated(
  { infinite, converged }: LogisticFit,
  { named, given }: { named: (name: string) => string; given: GivenArguments },
): Problem[] {
  if (infinite.length === 0 && converged) return [];
  const names = infinite.map(named);
  return [
    {
      code: "outcome-separated",
      severity: "stop",
      place: { span: given.span },
      message:
        names.length === 0
          ? "the model has no finite estimate, so no rate can be standardised"
          : `none or all failed where ${listed(names)} holds, so no rate can be standardised`,
      ...(names[0] === undefined ? {} : { found: names[0] }),
      remedy: "leave that group or term out, or gather it with another",
    },
  ];
}

function cannotResample(given: GivenArguments): Problem {
  return {
    code: "resamples-without-estimate",
    severity: "stop",
    place: { span: given.values.get("interval")?.span ?? given.span },
    message: "more than one in twenty of the resamples have no finite estimate",
    expected: "more failures, or fewer terms",
    remedy: "leave interval out: the delta method does without resamples",
  };
}
