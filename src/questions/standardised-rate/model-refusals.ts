import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import type { Group } from "../answering/grouping.ts";
import { listed } from "../answering/wording.ts";
import { columnText, type ModelData } from "../modelling/model-data.ts";
import { collinear } from "../modelling/model-faults.ts";

/** What a fit says of itself, logistic or Cox. */
interface FitState {
  readonly aliased: readonly string[];
  readonly infinite: readonly string[];
  readonly converged: boolean;
}

/** Columns that cannot be told apart, and columns that have no finite estimate. */
export function modelRefusals(
  fit: FitState,
  about: {
    readonly data: ModelData;
    readonly groups: readonly Group[];
    readonly given: GivenArguments;
  },
): Problem[] {
  const { data, given } = about;
  const named = (name: string): string => nameOf(name, about);
  return [
    ...collinear(data, fit.aliased.map(named), given),
    ...separated(fit, fit.infinite.map(named), given),
  ];
}

/** The group or the level that a column of the model is. */
function nameOf(
  name: string,
  { data, groups }: { data: ModelData; groups: readonly Group[] },
): string {
  const position = /^g(\d+)$/.exec(name)?.[1];
  return position === undefined
    ? columnText(data, name)
    : (groups[Number(position)]?.label ?? name);
}

function separated(
  { converged }: FitState,
  names: readonly string[],
  given: GivenArguments,
): Problem[] {
  if (names.length === 0 && converged) return [];
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
