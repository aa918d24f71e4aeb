import type { GivenArguments } from "../../formula/vocabulary.ts";
import type { Problem } from "../../problem/problem.ts";
import { counted, listed } from "../answering/wording.ts";
import { columnSpan, columnText, type ModelData } from "./model-data.ts";

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

/** Columns that say nothing that those before them do not. */
export function collinear(
  data: ModelData,
  aliased: readonly string[],
  given: GivenArguments,
): Problem[] {
  if (aliased.length === 0) return [];
  const names = aliased.map((name) => columnText(data, name));
  return [
    {
      code: "collinear-terms",
      severity: "stop",
      place: { span: columnSpan(data, aliased[0] ?? "") ?? given.span },
      message: `${listed(names)} can be told from the terms before ${names.length === 1 ? "it" : "them"}, so the two cannot be told apart`,
      found: names[0] ?? "",
      remedy: "leave out one of them, or gather its groups",
    },
  ];
}
