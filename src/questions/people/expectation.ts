import type { GivenArguments, Parameter, RowColumn } from "../../formula/vocabulary.ts";
import type { EyeRecord } from "../../outcomes/eye-record.ts";
import type { Problem, Span } from "../../problem/problem.ts";
import { rowColumns } from "../answering/row-columns.ts";
import { figure, listed, percent } from "../answering/wording.ts";
import { type BoundTerm, boundTerms, termsParameter } from "../modelling/bound-term.ts";
import { valueGiven } from "../question.ts";

/**
 * What failures are expected from: a published risk (one for all, or a formula over the columns of
 * an eye) with its source; a logistic model on the terms given, fitted to the eyes of others; or,
 * with neither, the plain rate of the others.
 */
export type Expectation =
  | {
      readonly kind: "published";
      readonly risk: RowColumn;
      readonly text: string;
      readonly source: string | undefined;
    }
  | { readonly kind: "model"; readonly terms: readonly BoundTerm[] }
  | { readonly kind: "others" };

export const expectationParameters: readonly Parameter[] = [
  {
    name: "expected",
    meaning: "a published risk of failure: 13%, or a formula over the columns of an eye",
    takes: "row",
    kinds: ["number"],
    required: false,
    whenLeftOut: "from the eyes of others",
    byNameOnly: true,
  },
  {
    name: "source",
    meaning: "where the published risk is from",
    takes: "value",
    kinds: ["text"],
    required: false,
    whenLeftOut: "none",
    byNameOnly: true,
  },
];

/** The risk factors of the model, last, so that they may be several. */
export const factorsParameter: Parameter = {
  ...termsParameter,
  meaning: "risk factors to allow for, one column or expression after the other",
  required: false,
  whenLeftOut: "none: the rate of the others",
};

export function expectationGiven(
  record: EyeRecord,
  given: GivenArguments,
): { readonly expectation: Expectation } | { readonly problems: readonly Problem[] } {
  const expected = given.rows.get("expected");
  const found = boundTerms(record, given);
  if ("problems" in found) return found;
  const { bound: terms } = found;
  if (expected === undefined) {
    return { expectation: terms.length === 0 ? { kind: "others" } : { kind: "model", terms } };
  }
  if (terms.length > 0) return { problems: [expectedTwice(expected.span)] };
  const bound = expected.over(rowColumns(record.table));
  if (!bound.ok) return { problems: bound.problems };
  const wrong = notRisks(record, bound.column, expected);
  if (wrong.length > 0) return { problems: wrong };
  const source = valueGiven(given, "source");
  const text = bound.names.length === 0 ? constantText(bound.column) : expected.text;
  return {
    expectation: {
      kind: "published",
      risk: bound.column,
      text,
      source: source?.kind === "text" ? source.text : undefined,
    },
  };
}

function constantText(column: RowColumn): string {
  const value = column.at(0);
  return typeof value === "number" ? percent(value) : "the risk given";
}

function notRisks(
  record: EyeRecord,
  column: RowColumn,
  { text, span }: { readonly text: string; readonly span: Span },
): Problem[] {
  const wrong = Array.from(record.time, (_, eye) => column.at(eye)).filter(
    (value) => value !== null && !(typeof value === "number" && value > 0 && value < 1),
  );
  if (wrong.length === 0) return [];
  const [first] = wrong;
  const percentMeant = typeof first === "number" && first >= 1 && first < 100;
  return [
    {
      code: "not-a-risk",
      severity: "stop",
      place: { span },
      message: `${text} is not a risk between 0 and 1 in ${wrong.length} of ${record.time.length} eyes`,
      found: typeof first === "number" ? figure(first, 3) : String(first),
      expected: "a share above 0 and below 1, such as 13%",
      ...(percentMeant ? { remedy: `write it as a share, such as ${figure(first, 2)}%` } : {}),
    },
  ];
}

function expectedTwice(span: Span): Problem {
  return {
    code: "expected-twice",
    severity: "stop",
    place: { span },
    message: "the expected risk is given, and risk factors for a model of it as well",
    expected: "one of the two",
    remedy: "leave out either `expected` or the risk factors",
  };
}

/** "from a logistic model on age and PVR grade, fitted to the eyes of others". */
export function expectationWords(expectation: Expectation): string {
  switch (expectation.kind) {
    case "published": {
      const from = expectation.source === undefined ? "no source given" : expectation.source;
      return `from a risk of ${expectation.text} (${from})`;
    }
    case "model": {
      const names = termNamesOf(expectation.terms);
      return `from a logistic model on ${names}, fitted without the person judged`;
    }
    case "others":
      return "from the rate of the others, with no allowance for case mix";
  }
}

/** The columns that the expectation uses, for the cautions that depend on them. */
export function expectationColumns(expectation: Expectation): readonly string[] {
  return expectation.kind === "model" ? expectation.terms.flatMap(({ names }) => names) : [];
}

/** "age and PVR grade". */
export function termNamesOf(terms: readonly BoundTerm[]): string {
  return listed(terms.map(({ label }) => label));
}
