import type { GivenArguments, Parameter } from "../../../formula/vocabulary.ts";
import type { Problem } from "../../../problem/problem.ts";
import { numberGiven, valueGiven } from "../../question.ts";

/** What a trainee is held against, agreed beforehand. */
export interface LearningDesign {
  /** The failure rate that is good enough. */
  readonly acceptable: number;
  /** The failure rate that is not. */
  readonly unacceptable: number;
  readonly source: string | undefined;
  /** The probability that an unacceptable rate is called reached within `operations`. */
  readonly wrongly: number;
  readonly operations: number;
  /** Operations in the moving rate. */
  readonly moving: number;
}

const usual = { wrongly: 0.1, operations: 100, moving: 20 } as const;

export const learningParameters: readonly Parameter[] = [
  share("acceptable", "the failure rate that is good enough, agreed beforehand", undefined),
  share("unacceptable", "the failure rate that is not", undefined),
  {
    name: "source",
    meaning: "who agreed on the two rates, and when",
    takes: "value",
    kinds: ["text"],
    required: true,
    byNameOnly: true,
  },
  share(
    "wrongly",
    "the chance of calling an unacceptable rate reached, or an acceptable one not",
    "10%",
  ),
  share("operations", "within how many operations that chance holds", String(usual.operations)),
  share("moving", "operations in the moving rate", String(usual.moving)),
];

function share(name: string, meaning: string, whenLeftOut: string | undefined): Parameter {
  const takes = "value" as const;
  const about = { name, meaning, takes, kinds: ["number"], byNameOnly: true };
  return whenLeftOut === undefined
    ? { ...about, required: true }
    : { ...about, required: false, whenLeftOut };
}

/** The design given, or what is wrong with it. */
export function learningDesign(
  given: GivenArguments,
): { readonly design: LearningDesign } | { readonly problems: readonly Problem[] } {
  const source = valueGiven(given, "source");
  const design: LearningDesign = {
    acceptable: numberGiven(given, "acceptable") ?? 0,
    unacceptable: numberGiven(given, "unacceptable") ?? 0,
    source: source?.kind === "text" ? source.text : undefined,
    wrongly: numberGiven(given, "wrongly") ?? usual.wrongly,
    operations: numberGiven(given, "operations") ?? usual.operations,
    moving: numberGiven(given, "moving") ?? usual.moving,
  };
  const problems = faultsOf(design, given);
  return problems.length > 0 ? { problems } : { design };
}

function faultsOf(design: LearningDesign, given: GivenArguments): Problem[] {
  const { acceptable, unacceptable, wrongly, operations, moving } = design;
  const isWhole = (value: number, least: number, most: number) =>
    Number.isInteger(value) && value >= least && value <= most;
  const refused: readonly (readonly [string, boolean, number, string])[] = [
    ["acceptable", acceptable > 0 && acceptable < 1, acceptable, "a share such as 13%"],
    [
      "unacceptable",
      unacceptable > acceptable && unacceptable < 1,
      unacceptable,
      "a share above the acceptable one, such as 26%",
    ],
    ["wrongly", wrongly >= 0.001 && wrongly <= 0.5, wrongly, "a share from 0.1% to 50%"],
    ["operations", isWhole(operations, 5, 5000), operations, "a whole number from 5 to 5,000"],
    ["moving", isWhole(moving, 5, 500), moving, "a whole number from 5 to 500"],
  ];
  return refused
    .filter(([, isRight]) => !isRight)
    .map(([name, , value, expected]) => ({
      code: "learning-design",
      severity: "stop",
      place: { span: given.values.get(name)?.span ?? given.span },
      message: `${name} cannot be ${value}`,
      found: String(value),
      expected,
    }));
}
