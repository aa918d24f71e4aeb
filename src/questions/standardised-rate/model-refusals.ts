import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import type { Group } from "../answering/grouping.ts";
import { listed } from "../answering/wording.ts";
import { columnsInWords, type ModelData } from "../modelling/model-data.ts";
import { collinear } from "../modelling/model-faults.ts";

/** What a fit says of itself, logistic or Cox. */
interface FitState {
  readonly aliased: readonly string[];
  readonly infinite: readonly string[];
  readonly converged: boolean;
}

/**
 * Columns that cannot be told apart, else columns that have no finite estimate: one fault, which
 * names each term once.
 */
export function modelRefusals(
  fit: FitState,
  about: {
    readonly data: ModelData;
    readonly groups: readonly Group[];
    readonly given: GivenArguments;
  },
): Problem[] {
  const { data, groups, given } = about;
  const others = groupLabels(fit.aliased, groups);
  const same = collinear(data, fit.aliased, { given, others });
  if (same.length > 0) return same;
  const names = [...groupLabels(fit.infinite, groups), ...columnsInWords(data, fit.infinite)];
  return separated(fit, names, given);
}

/** The groups that are columns of the model, named g1, g2 … by their position. */
function groupLabels(names: readonly string[], groups: readonly Group[]): string[] {
  return groups.filter((_, position) => names.includes(`g${position}`)).map(({ label }) => label);
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
          : `none or all failed with ${listed(names)}, so no rate can be standardised`,
      ...(names[0] === undefined ? {} : { found: names[0] }),
      remedy: "leave that group or term out, or gather it with another",
    },
  ];
}
