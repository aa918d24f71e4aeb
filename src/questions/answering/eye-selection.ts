import type { CaseReading } from "../../cases/case-reading.ts";
import type { GivenArguments, Parameter, RowExpression } from "../../formula/vocabulary.ts";
import type { EyeSelection } from "../../outcomes/index-eyes.ts";
import type { Problem } from "../../problem/problem.ts";
import { valueGiven } from "../question.ts";
import { rowColumns } from "./row-columns.ts";

export const casesParameter: Parameter = {
  name: "cases",
  meaning: "the cases that were opened",
  takes: "value",
  kinds: ["cases"],
  required: true,
};

/** How a question that starts from the cases is told which eyes it is about. */
export const selectionParameters: readonly Parameter[] = [
  day("from", "first day of the primary repairs"),
  day("to", "last day of the primary repairs"),
  {
    name: "where",
    meaning: "only eyes whose primary repair fits this condition",
    takes: "row",
    kinds: ["truth"],
    required: false,
    whenLeftOut: "all",
  },
];

function day(name: string, meaning: string): Parameter {
  return { name, meaning, takes: "value", kinds: ["day"], required: false, whenLeftOut: "any day" };
}

/** The eyes asked for; a condition that is none is a problem. */
export function selectionGiven(
  given: GivenArguments,
  reading: CaseReading,
): { readonly selection: EyeSelection } | { readonly problems: readonly Problem[] } {
  const days = { ...dayGiven(given, "from"), ...dayGiven(given, "to") };
  const where = given.rows.get("where");
  if (where === undefined) return { selection: days };
  const bound = where.over(rowColumns(reading.cases));
  if (!bound.ok) return { problems: bound.problems };
  const { column } = bound;
  if (column.kind !== "truth") return { problems: [notACondition(where)] };
  return { selection: { ...days, wanted: (row) => column.at(row) as boolean | null } };
}

function dayGiven(given: GivenArguments, name: "from" | "to"): EyeSelection {
  const value = valueGiven(given, name);
  return value?.kind === "day" ? { [name]: value.day } : {};
}

function notACondition(where: RowExpression): Problem {
  return {
    code: "not-a-condition",
    severity: "stop",
    place: { span: where.span },
    message: `${where.text} is not a condition`,
    found: where.text,
    expected: 'something that holds or not, such as technique = "scleral buckle"',
  };
}
