import { describe, expect, it } from "vitest";
import { movedPlace } from "../../src/page/cases-leaf/grid-place.ts";
import { stepFrom } from "../../src/page/sheet/cell-steps.ts";

const cells = [
  { name: "setting", row: 0, middle: 300 },
  { name: "window", row: 0, middle: 900 },
  { name: "rate", row: 1, middle: 600 },
  { name: "when", row: 2, middle: 400 },
  { name: "why", row: 2, middle: 1000 },
];

describe("steps between the cells of the sheet", () => {
  it.each([
    ["setting", "ArrowRight", "window"],
    ["window", "ArrowRight", "rate"],
    ["rate", "ArrowLeft", "window"],
    ["window", "ArrowDown", "rate"],
    ["rate", "ArrowDown", "when"],
    ["why", "ArrowUp", "rate"],
    ["why", "ArrowDown", undefined],
    ["setting", "ArrowLeft", undefined],
    ["when", "Home", "setting"],
    ["setting", "End", "why"],
    ["setting", "a", undefined],
  ])("%s, %s", (from, key, to) => {
    expect(stepFrom(cells, from, key)).toBe(to);
  });
});

/** As the grid pattern of the ARIA Authoring Practices Guide has it (w3.org/WAI/ARIA/apg). */
describe("steps in the grid of cases", () => {
  const size = { rows: 50, columns: 4, pageRows: 10 };
  it.each([
    [{ row: 1, column: 1 }, "ArrowDown", false, { row: 2, column: 1 }],
    [{ row: 0, column: 0 }, "ArrowUp", false, { row: 0, column: 0 }],
    [{ row: 50, column: 4 }, "ArrowRight", false, { row: 50, column: 4 }],
    [{ row: 45, column: 2 }, "PageDown", false, { row: 50, column: 2 }],
    [{ row: 3, column: 2 }, "PageUp", false, { row: 0, column: 2 }],
    [{ row: 3, column: 2 }, "Home", false, { row: 3, column: 0 }],
    [{ row: 3, column: 2 }, "End", false, { row: 3, column: 4 }],
    [{ row: 3, column: 2 }, "Home", true, { row: 0, column: 0 }],
    [{ row: 3, column: 2 }, "End", true, { row: 50, column: 4 }],
  ])("%o, %s, control %s", (from, key, ctrlKey, to) => {
    expect(movedPlace(from, { key, ctrlKey }, size)).toEqual(to);
  });

  it("leaves every other key alone", () => {
    expect(movedPlace({ row: 1, column: 1 }, { key: "x", ctrlKey: false }, size)).toBeUndefined();
  });
});
