import { describe, expect, test } from "vitest";
import { readNotebook } from "../../src/notebook/read-notebook.ts";
import { type Renaming, renameCell } from "../../src/notebook/rename-cell.ts";
import { lineDiff, textOf } from "./line-diff.ts";

const example = `# window

    window        = 12 months
    failure_means = "window"

    eyes = index_eyes(cases, window: 3,
      within: window )  
    window_2 = window + window

The window is a year.
`;

function changes(renaming: Renaming, text = example): string[] {
  return lineDiff(text, textOf(renameCell(readNotebook(text).notebook, renaming)));
}

describe("renaming a cell", () => {
  test("is followed by every working that names it, and by nothing else", () => {
    expect(changes({ from: "window", to: "span" })).toEqual([
      "-    window        = 12 months",
      "+    span          = 12 months",
      "-      within: window )  ",
      "-    window_2 = window + window",
      "+      within: span )  ",
      "+    window_2 = span + span",
    ]);
  });
  test("leaves columns of the same name alone", () => {
    const columnsIn = (working: string) => {
      const start = working.indexOf("within");
      return start < 0 ? [] : [{ start, end: working.length }];
    };
    expect(changes({ from: "window", to: "span", columnsIn })).toEqual([
      "-    window        = 12 months",
      "+    span          = 12 months",
      "-    window_2 = window + window",
      "+    window_2 = span + span",
    ]);
  });
  test("keeps = in its column where there is room, and one space where there is none", () => {
    expect(changes({ from: "window", to: "length_of_follow_up" })[1]).toBe(
      "+    length_of_follow_up = 12 months",
    );
    expect(changes({ from: "a", to: "bcd" }, "    a=1")).toEqual(["-    a=1", "+    bcd=1"]);
  });
  test("of a name written twice renames the first and leaves the workings to the other", () => {
    const text = "    a = 1\n    b = a\n    a = 2\n";
    expect(changes({ from: "a", to: "c" }, text)).toEqual(["-    a = 1", "+    c = 1"]);
  });
  test("is refused where the name is taken or is none", () => {
    expect(changes({ from: "window", to: "eyes" }).at(-1)).toBe(
      "+Another cell is named eyes already.",
    );
    expect(changes({ from: "window", to: "and" }).at(-1)).toBe(
      "+This cannot be the name of a cell.",
    );
  });
  test("there and back is the same text where there was room", () => {
    const there = renameCell(readNotebook(example).notebook, { from: "window", to: "w" });
    if (!there.ok) throw new Error("refused");
    expect(textOf(renameCell(there.notebook, { from: "w", to: "window" }))).toBe(example);
  });
});
