import { columnNamed, rowCount } from "../../cases/table.ts";
import type {
  GivenArguments,
  Parameter,
  RowColumn,
  RowExpression,
} from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import { nearestName } from "../../problem/nearest-name.ts";
import type { Problem, Span } from "../../problem/problem.ts";
import { groupsOf } from "../answering/group-rows.ts";
import { groupedByText } from "../answering/grouped-by-text.ts";
import { rowColumns } from "../answering/row-columns.ts";

/** A term of a model before its eyes are known: an expression over the columns of the eyes. */
export interface BoundTerm {
  /** As a person reads it: "age", "PVR grade". */
  readonly label: string;
  /** As it was written. */
  readonly text: string;
  readonly span: Span;
  /** The unit of a column that stands alone: "years". */
  readonly unit: string | undefined;
  readonly column: RowColumn;
  /** The columns it uses. */
  readonly names: readonly string[];
}

/**
 * The terms of a model, one after the other, each under a name of its own where one is given:
 * `hazard_model(eyes, decade: age / 10, technique)`.
 */
export const termsParameter: Parameter = {
  name: "on",
  meaning: "what it may depend on, one column or expression after the other",
  takes: "row",
  kinds: [],
  required: true,
  repeated: true,
  freeNames: true,
};

/** The terms tied to the columns of the eyes. A day is refused: it is no amount. */
export function boundTerms(
  record: EyeRecord,
  given: GivenArguments,
): { readonly bound: readonly BoundTerm[] } | { readonly problems: readonly Problem[] } {
  const bound: BoundTerm[] = [];
  const problems: Problem[] = [];
  for (const expression of given.repeated) {
    if (!("over" in expression)) continue;
    const found = expression.over(rowColumns(record.table));
    if (!found.ok) {
      problems.push(...found.problems);
      continue;
    }
    const { column, names } = found;
    const { text, span, name } = expression;
    problems.push(...mistakenName(name, span));
    if (column.kind === "day") problems.push(dayAsTerm(text, span));
    const freeText = levelsOfText(record, expression, found);
    if (freeText !== undefined) problems.push(freeText);
    const unit = columnNamed(record.table, text)?.unit;
    const label = name === undefined ? column.label : name.replaceAll("_", " ");
    bound.push({ label, text, span, unit, column, names });
  }
  return problems.length > 0 ? { problems } : { bound };
}

function levelsOfText(
  { table }: EyeRecord,
  expression: Pick<RowExpression, "text" | "span">,
  { column, names }: { readonly column: RowColumn; readonly names: readonly string[] },
): Problem | undefined {
  if (column.kind !== "text") return undefined;
  const groups = groupsOf(column, Array(rowCount(table)).keys());
  return groupedByText(table, expression, { names, groups });
}

const argumentNames = [
  "eyes",
  "within",
  "method",
  "show",
  "tolerance",
  "interval",
  "groups",
  "against",
  "model",
  "seed",
  "replicates",
];

/** `witin: 12 months` is no term: its name is all but that of an argument. */
function mistakenName(name: string | undefined, span: Span): Problem[] {
  const nearest = name === undefined ? undefined : nearestName(name, argumentNames);
  if (name === undefined || nearest === undefined) return [];
  return [
    {
      code: "term-named-as-argument",
      severity: "stop",
      place: { span },
      message: `\`${name}\` is taken for the name of a term, and is all but the argument \`${nearest}\``,
      found: name,
      remedy: `write \`${nearest}:\`, or give the term another name`,
    },
  ];
}

function dayAsTerm(text: string, span: Span): Problem {
  return {
    code: "day-as-term",
    severity: "stop",
    place: { span },
    message: `${text} is a day, which cannot stand in a model as it is`,
    found: text,
    expected: "a number, a code, or yes or no",
    remedy: "ask for its year, or for the days between two days",
  };
}
