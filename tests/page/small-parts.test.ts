import { describe, expect, it } from "vitest";
import { fieldChoices } from "../../src/page/desk/field-choices.ts";
import { casesInBrief, inWords } from "../../src/page/labels.ts";
import { dayOfText, textOfDay } from "../../src/page/look/day-text.ts";
import { rowWidths } from "../../src/page/sheet/row-widths.ts";
import { casesView } from "./fake-cases.ts";
import { cellViews } from "./fake-sheet.ts";
import { wordViews } from "./fake-words.ts";

describe("days as text", () => {
  /** Day numbers of date(1) of GNU coreutils: seconds since 1970 divided by 86,400. */
  it.each([
    [0, "1970-01-01"],
    [20_453, "2025-12-31"],
    [19_782, "2024-02-29"],
  ])("%d is %s", (day, text) => {
    expect(textOfDay(day)).toBe(text);
    expect(dayOfText(text)).toBe(day);
  });

  it("takes nothing that is no day", () => {
    for (const text of ["", "2025-02-29", "31/12/2025", "2025-13-01"]) {
      expect(dayOfText(text)).toBeUndefined();
    }
  });
});

describe("what may stand in a field", () => {
  const [eyes, by, , interval] = wordViews[0]!.parameters;

  it("is a cell of a fitting kind, a column, or a choice in quotes", () => {
    expect(fieldChoices(eyes!, cellViews, casesView)).toEqual(["eyes"]);
    expect(fieldChoices(by!, cellViews, casesView)).toContain("technique");
    expect(fieldChoices(interval!, cellViews, casesView)).toEqual([
      '"Wilson"',
      '"Clopper-Pearson"',
    ]);
  });
});

describe("words of the page", () => {
  it("tell the cases in brief", () => {
    expect(casesInBrief(casesView)).toBe("486 rows, 442 eyes, 1 query");
    const { eyes: _, ...without } = casesView;
    expect(casesInBrief({ ...without, rowsRead: 12_345, problems: [] })).toBe(
      "12,345 rows, 0 queries",
    );
  });

  it("join names", () => {
    expect([inWords([]), inWords(["a"]), inWords(["a", "b"]), inWords(["a", "b", "c"])]).toEqual([
      "",
      "a",
      "a and b",
      "a, b and c",
    ]);
  });
});

describe("widths of a row", () => {
  const named = (name: string) => cellViews.find((view) => view.name === name);

  it("give a chart more than a table, and nobody less than a third of the widest", () => {
    expect(rowWidths([named("when"), named("why")])).toBe("minmax(0, 7.20fr) minmax(0, 4.80fr)");
    const widths = rowWidths([named("failure_means"), named("window")]);
    const [first = 0, second = 0] = [...widths.matchAll(/([\d.]+)fr/g)].map(([, share]) =>
      Number(share),
    );
    expect(first / second).toBeCloseTo((14 + 75) / (14 + 36 - 4), 1);
  });
});
