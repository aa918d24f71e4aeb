import type { RowValue, Word } from "../../formula/vocabulary.ts";
import { asItems, required } from "../../formula/words/parameters.ts";
import { type PlainWord, plainWord } from "../../formula/words/plain-word.ts";
import { sampleQuantile } from "../../statistics/sample-quantile.ts";

/** Words that sum up the rows of a group, beside those over lists that the language has. */
export const summaryWords: readonly Word[] = [
  quartile("lower_quartile", "the value below which a quarter of a list lies", 0.25),
  quartile("upper_quartile", "the value below which three quarters of a list lie", 0.75),
  {
    name: "count_where",
    meaning: "how many items of a list are true",
    parameters: [required("list", ["list"], "a condition, or a list of true and false")],
    answers: "number" as const,
    items: ["truth"] as const,
    overRows: "known" as const,
    apply: (items: readonly RowValue[]) =>
      items.includes(null) ? null : items.filter((item) => item === true).length,
  },
  {
    name: "count_different",
    meaning: "how many different values a list has, such as patients",
    parameters: [required("list", ["list"], "a list of one kind")],
    answers: "number" as const,
    overRows: "known" as const,
    apply: (items: readonly RowValue[]) => (items.includes(null) ? null : new Set(items).size),
  },
].map((plan) => plainWord(plan as PlainWord));

function quartile(name: string, meaning: string, share: number): PlainWord {
  return {
    name,
    meaning,
    parameters: [required("list", ["list"], "a list of numbers or of lengths of time")],
    answers: asItems,
    items: ["number", "duration"],
    overRows: "known",
    apply: (items: readonly RowValue[]) => {
      if (items.includes(null)) return null;
      const ordered = [...(items as readonly number[])].sort((one, other) => one - other);
      return sampleQuantile(ordered, share);
    },
  };
}
