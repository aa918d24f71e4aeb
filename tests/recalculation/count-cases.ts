import type { CaseReading } from "../../src/cases/case-reading.ts";
import type { Thing } from "../../src/formula/value.ts";
import type { Word } from "../../src/formula/vocabulary.ts";

/** Counts the cases that were kept; and a word with an argument over rows. */
export const countCases: Word = {
  name: "count_cases",
  meaning: "how many cases there are",
  parameters: [
    { name: "of", meaning: "cases", takes: "value", kinds: ["cases"], required: true },
    { name: "by", meaning: "a column", takes: "row", kinds: [], required: false },
  ],
  answers: "number",
  call: (given) => {
    const cases = given.values.get("of")?.value as Thing;
    const { lines } = cases.content as CaseReading;
    return { ok: true, value: { kind: "number", number: lines.length } };
  },
};
