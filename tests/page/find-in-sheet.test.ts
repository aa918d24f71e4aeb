import { describe, expect, it } from "vitest";
import { findInSheet } from "../../src/page/sheet/find-in-sheet.ts";
import { cellViews, notebookView } from "./fake-sheet.ts";

const cells = new Map(cellViews.map((view) => [view.name, view]));
const find = (text: string) => findInSheet(text, notebookView.blocks, cells);
const placesOf = (text: string) => find(text).map(({ cell, where }) => [cell, where]);

describe("finding on the sheet", () => {
  it("looks in names, workings, answers and prose, in reading order", () => {
    expect(placesOf("WINDOW")).toEqual([
      ["window", "name"],
      ["eyes", "working"],
    ]);
    expect(placesOf("landmarks")).toEqual([["when", "working"]]);
    expect(placesOf("60 redetached")).toEqual([
      ["how_often", "answer"],
      ["busy", "answer"],
    ]);
    expect(placesOf("primary repair")).toEqual([[undefined, "text"]]);
    expect(placesOf("nothing is called")).toEqual([["slip", "answer"]]);
  });

  it("finds what was minuted and what stands in tables", () => {
    expect(placesOf("52 of 410")).toEqual([["how_often", "answer"]]);
    expect(placesOf("pneumatic retinopexy").map(([cell]) => cell)).toContain("how_often");
  });

  it("shows a little of the text around", () => {
    const [found] = find("splits into nothing").concat(find("by: technique, landmarks"));
    expect(found?.excerpt).toEqual({
      before: "attachment_curve(eyes, ",
      hit: "by: technique, landmarks",
      after: ": [3 months, 6 months, 12 months])",
    });
  });

  it("keeps places where lower case is longer than upper case", () => {
    const view = { ...cellViews[0]!, working: '"İİ here"' };
    const [found] = findInSheet(
      "here",
      [{ type: "row", cells: [view.name] }],
      new Map([[view.name, view]]),
    );
    expect(found?.excerpt.hit).toBe("here");
  });

  it("finds nothing for nothing", () => {
    expect(find("")).toEqual([]);
    expect(find("  ")).toEqual([]);
    expect(find("no such words")).toEqual([]);
  });
});
