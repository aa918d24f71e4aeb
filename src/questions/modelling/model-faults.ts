import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { counted, listed } from "../answering/wording.ts";
import { columnSpan, columnsInWords, type ModelData } from "./model-data.ts";

/**
 * A model needs this many failures a column, and this many altogether (common practice, no source).
 */
const fewestPerColumn = 2;
const fewestFailures = 5;

/**
 * What a model cannot be asked for: more columns than its failures support. Peduzzi et al. (Journal
 * of Clinical Epidemiology 1996;49:1373) found estimates biased under 10 a column; under 2 they are
 * noise.
 */
export function tooFewFailures(
  data: ModelData,
  failures: number,
  given: GivenArguments,
): Problem[] {
  const columns = data.columns.length;
  const needed = Math.max(fewestFailures, fewestPerColumn * columns);
  if (failures >= needed) return [];
  return [
    {
      code: "too-few-failures",
      severity: "stop",
      place: { span: given.span },
      message: `${counted(failures, "failure")} cannot carry a model of ${counted(columns, "column")}`,
      found: `${failures} failed of ${counted(data.eyes.length, "eye")}`,
      expected: `at least ${needed} failures; 10 a column are better`,
      remedy: "leave terms out, gather groups, or take in more years",
    },
  ];
}

/** Columns that say nothing that those before them do not; `others` are named beside the terms. */
export function collinear(
  data: ModelData,
  aliased: readonly string[],
  { given, others = [] }: { readonly given: GivenArguments; readonly others?: readonly string[] },
): Problem[] {
  const names = [...others, ...columnsInWords(data, aliased)];
  if (names.length === 0) return [];
  return [
    {
      code: "collinear-terms",
      severity: "stop",
      place: { span: columnSpan(data, aliased[0] ?? "") ?? given.span },
      message: `${listed(names)} can be told from what stands before ${names.length === 1 ? "it" : "them"} in the model, so their effects cannot be told apart`,
      found: names[0] ?? "",
      remedy: "leave out one of them, or gather its groups",
    },
  ];
}
