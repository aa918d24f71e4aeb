import type { RowArguments, RowOperand, RowOutcome, Word } from "../../formula/vocabulary.ts";
import { type BandPlan, bandPlan } from "./band-plan.ts";
import { rowWord } from "./row-word.ts";

/**
 * The band of a scale in which a value lies, as a code whose order is that of the scale. A cut
 * belongs to the band above it: with cuts at 40 and 60, a patient of 40 is in "40 to under 60".
 */
export const band: Word = rowWord(
  {
    name: "band",
    meaning: "which band a number, length of time or day lies in; a cut belongs to the band above",
    parameters: [
      {
        name: "value",
        meaning: "the column or value to put in bands",
        takes: "value",
        kinds: ["number", "duration", "day", "missing"],
        required: true,
      },
      {
        name: "cuts",
        meaning: "where one band ends and the next begins, from low to high",
        takes: "value",
        kinds: ["list"],
        required: true,
      },
      {
        name: "labels",
        meaning: "what the bands are called, one more than there are cuts",
        takes: "value",
        kinds: ["list"],
        required: false,
        whenLeftOut: 'such as ["under 40", "40 to under 60", "60 or over"]',
      },
    ],
    answers: "text",
  },
  bandPerRow,
);

function bandPerRow({ values, span }: RowArguments): RowOutcome {
  const [value, cuts, labels] = ["value", "cuts", "labels"].map((name) => values.get(name));
  if (value === undefined || cuts === undefined) throw new Error("called without value or cuts");
  const plan = bandPlan(value.operand.kind, { cuts, labels, span });
  return "problems" in plan
    ? { ok: false, problems: plan.problems }
    : { ok: true, operand: banded(value.operand, plan) };
}

function banded(value: RowOperand, { cuts, labels }: BandPlan): RowOperand {
  return {
    kind: "text",
    order: labels,
    at: (row) => {
      const held = value.at(row);
      if (typeof held !== "number") return null;
      const above = cuts.findIndex((cut) => held < cut);
      return labels[above < 0 ? cuts.length : above] ?? null;
    },
  };
}
