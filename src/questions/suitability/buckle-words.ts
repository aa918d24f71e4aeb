import type { CellValue } from "../../cases/table.ts";
import type {
  Outcome,
  Parameter,
  RowArguments,
  RowColumns,
  RowOutcome,
  Word,
} from "../../formula/vocabulary.ts";
import {
  recordedFeatures,
  type Suitability,
  suitabilityOf,
  suitabilityStrata,
  usualYoung,
} from "../../outcomes/buckle-suitability.ts";
import type { Span } from "../../problem/problem.ts";

export const youngParameter: Parameter = {
  name: "young",
  meaning: "the age in years below which an eye counts as young",
  takes: "value",
  kinds: ["number"],
  required: false,
  whenLeftOut: String(usualYoung),
};

/**
 * How the features for and against a scleral buckle lie in a row: common practice, no source,
 * unweighted, missing where what is not recorded could move it.
 */
const buckleSuitability = rowWord({
  name: "buckle_suitability",
  meaning: "whether features for or against a buckle are recorded, for splitting eyes",
  answers: "text",
  operand: (suitability) => ({
    kind: "text",
    order: suitabilityStrata,
    at: (row) => suitability(row).stratum,
  }),
});

const featuresFor = rowWord({
  name: "features_for_buckle",
  meaning: "the recorded features of an eye that speak for a buckle, by name",
  answers: "list",
  operand: (suitability) => ({
    kind: "list",
    item: "text",
    at: (row) => suitability(row).for,
  }),
});

const featuresAgainst = rowWord({
  name: "features_against_buckle",
  meaning: "the recorded features of an eye that speak against a buckle, by name",
  answers: "list",
  operand: (suitability) => ({
    kind: "list",
    item: "text",
    at: (row) => suitability(row).against,
  }),
});

export const buckleWords: readonly Word[] = [buckleSuitability, featuresFor, featuresAgainst];

interface RowWordPlan {
  readonly name: string;
  readonly meaning: string;
  readonly answers: string;
  readonly operand: (
    suitability: (row: number) => Suitability,
  ) => Extract<RowOutcome, { ok: true }>["operand"];
}

/** A word that looks at the whole row, and so has no answer outside one. */
function rowWord({ name, meaning, answers, operand }: RowWordPlan): Word {
  return {
    name,
    meaning,
    parameters: [youngParameter],
    answers,
    call: ({ span }) => outsideRow(name, span),
    perRow: (given) => ({ ok: true, operand: operand(suitabilityByRow(given)) }),
    readsRow: true,
  };
}

function suitabilityByRow({ values, columns }: RowArguments): (row: number) => Suitability {
  const features = recordedFeatures((field) => columns.column(field) !== undefined);
  const young = values.get("young")?.operand;
  return (row) => {
    const age = young?.at(row);
    const read = (field: string): CellValue => valueAt(columns, field, row);
    return suitabilityOf(read, { features, ...(typeof age === "number" ? { young: age } : {}) });
  };
}

function valueAt(columns: RowColumns, field: string, row: number): CellValue {
  return columns.column(field)?.at(row) ?? null;
}

function outsideRow(name: string, span: Span): Outcome {
  return {
    ok: false,
    problems: [
      {
        code: "needs-a-row",
        severity: "stop",
        place: { span },
        message: `${name} looks at the columns of one eye and has no answer by itself`,
        found: name,
        expected: `a place over rows, such as failure_rate(eyes, by: ${name}())`,
      },
    ],
  };
}
