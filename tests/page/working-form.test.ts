import { describe, expect, it } from "vitest";
import { freshName, startingWorking } from "../../src/page/book/fresh-cell.ts";
import { formOfWorking, withField } from "../../src/page/desk/working-form.ts";
import { cellViews } from "./fake-sheet.ts";
import { wordViews } from "./fake-words.ts";

function rewritten(working: string, name: string, text: string): string {
  const form = formOfWorking(working, wordViews)!;
  return withField(form, form.fields.find(({ parameter }) => parameter.name === name)!, text);
}

describe("the form of a working", () => {
  it("holds the text of each argument, by position or by name", () => {
    const form = formOfWorking(
      'failure_rate(eyes, by: if age > 60 then "old" else "young")',
      wordViews,
    );
    expect(form?.fields.map(({ parameter, text }) => [parameter.name, text])).toEqual([
      ["eyes", "eyes"],
      ["by", 'if age > 60 then "old" else "young"'],
      ["within", ""],
      ["interval", ""],
    ]);
  });

  it("is none where the working is no call of a known word", () => {
    expect(formOfWorking("1 - how_often.rate", wordViews)).toBeUndefined();
    expect(formOfWorking("unheard_of(eyes)", wordViews)).toBeUndefined();
    expect(formOfWorking("failure_rate(eyes", wordViews)).toBeUndefined();
  });

  it("holds all of a repeated argument in one field", () => {
    const form = formOfWorking("summarise(t, surgeon, median(age), mean(age))", wordViews);
    expect(form?.fields.at(-1)?.text).toBe("median(age), mean(age)");
  });
});

describe("rewriting a field", () => {
  it.each([
    ["failure_rate( eyes , by: technique )", "by", "surgeon", "failure_rate( eyes , by: surgeon )"],
    ["failure_rate(eyes)", "within", "90 days", "failure_rate(eyes, within: 90 days)"],
    ["failure_rate()", "eyes", "eyes", "failure_rate(eyes)"],
    ["failure_rate(by: surgeon)", "eyes", "eyes", "failure_rate(by: surgeon, eyes: eyes)"],
    [
      "failure_rate(eyes, by: surgeon, within: 9 days)",
      "by",
      " ",
      "failure_rate(eyes, within: 9 days)",
    ],
    ["failure_rate(eyes, surgeon)", "eyes", "", "failure_rate(by: surgeon)"],
    ["summarise(t, surgeon)", "figures", "median(age)", "summarise(t, surgeon, median(age))"],
    ["summarise(by: surgeon)", "figures", "mean(age)", "summarise(mean(age), by: surgeon)"],
    ["failure_rate(eyes)", "by", "", "failure_rate(eyes)"],
  ])("%s with %s %s", (working, name, text, expected) => {
    expect(rewritten(working, name, text)).toBe(expected);
  });
});

describe("a new cell", () => {
  it("has a name of its own", () => {
    expect(freshName("when", ["why"])).toBe("when");
    expect(freshName("when", ["when", "when_2"])).toBe("when_3");
  });

  it("asks the example's question of the cells that are there", () => {
    const [eyes, ...others] = cellViews.filter(({ name }) => name === "eyes" || name === "why");
    const cells = new Map([
      ["repairs", { ...eyes!, name: "repairs" }],
      ...others.map((view) => [view.name, view] as const),
    ]);
    expect(startingWorking(wordViews[0]!, { cells, words: wordViews })).toBe(
      "failure_rate(repairs, by: technique)",
    );
  });
});
