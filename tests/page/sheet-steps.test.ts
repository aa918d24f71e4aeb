import { describe, expect, it } from "vitest";
import { dropLine, dropPlace } from "../../src/page/sheet/drop-place.ts";
import { placeBy } from "../../src/page/sheet/move-steps.ts";
import { stepOnWalk } from "../../src/page/sheet/walk-steps.ts";

const rows = [["a", "b"], ["c"], ["d", "e", "f", "g"], ["h"]];

describe("moving a cell by keys", () => {
  it("goes past its neighbour", () => {
    expect(placeBy("ArrowRight", "a", rows)).toEqual({ beside: "b", side: "behind", row: "same" });
    expect(placeBy("ArrowLeft", "b", rows)).toEqual({ beside: "a", side: "before", row: "same" });
    expect(placeBy("ArrowLeft", "a", rows)).toBeUndefined();
    expect(placeBy("ArrowRight", "c", rows)).toBeUndefined();
  });

  it("goes out of its row first, then into the next at the nearer end", () => {
    expect(placeBy("ArrowUp", "b", rows)).toEqual({ beside: "a", side: "before", row: "new" });
    expect(placeBy("ArrowDown", "a", rows)).toEqual({ beside: "b", side: "behind", row: "new" });
    expect(placeBy("ArrowUp", "c", rows)).toEqual({ beside: "b", side: "behind", row: "same" });
  });

  it("goes past a full row, and nowhere beyond the ends", () => {
    expect(placeBy("ArrowDown", "c", rows)).toEqual({ beside: "d", side: "behind", row: "new" });
    expect(placeBy("ArrowUp", "h", rows)).toEqual({ beside: "g", side: "before", row: "new" });
    expect(placeBy("ArrowDown", "h", rows)).toBeUndefined();
    expect(placeBy("ArrowDown", "no such cell", rows)).toBeUndefined();
  });
});

describe("letting a cell go", () => {
  const box = { left: 0, right: 200, top: 0, bottom: 100 };

  it.each([
    [20, 50, "before", "same"],
    [180, 50, "behind", "same"],
    [100, 5, "before", "new"],
    [100, 95, "behind", "new"],
  ])("at %d, %d means %s in the %s row", (x, y, side, row) => {
    expect(dropPlace(box, { x, y })).toEqual({ side, row });
  });

  it("draws a line where the cell would go in", () => {
    const row = { left: 0, right: 400, top: 0, bottom: 120 };
    expect(dropLine(box, row, { side: "behind", row: "same" })).toMatchObject({ left: 198 });
    expect(dropLine(box, row, { side: "behind", row: "new" })).toEqual({
      left: 0,
      right: 400,
      top: 118,
      bottom: 122,
    });
  });
});

describe("walking along a chart", () => {
  it("stands on the first point, goes along, and stops at the ends", () => {
    expect(stepOnWalk([3, 5], undefined, "ArrowRight")).toEqual({ walk: 0, point: 0 });
    expect(stepOnWalk([3, 5], { walk: 0, point: 2 }, "ArrowRight")).toEqual({ walk: 0, point: 2 });
    expect(stepOnWalk([3, 5], { walk: 1, point: 1 }, "ArrowLeft")).toEqual({ walk: 1, point: 0 });
    expect(stepOnWalk([3, 5], { walk: 1, point: 1 }, "End")).toEqual({ walk: 1, point: 4 });
  });

  it("changes to another curve at the same share of its length", () => {
    expect(stepOnWalk([3, 5], { walk: 0, point: 1 }, "ArrowDown")).toEqual({ walk: 1, point: 2 });
    expect(stepOnWalk([3, 5], { walk: 0, point: 2 }, "ArrowUp")).toEqual({ walk: 1, point: 4 });
    expect(stepOnWalk([1, 5], { walk: 0, point: 0 }, "ArrowDown")).toEqual({ walk: 1, point: 0 });
  });

  it("leaves other keys, and charts without points, alone", () => {
    expect(stepOnWalk([3], undefined, "a")).toBeUndefined();
    expect(stepOnWalk([], undefined, "ArrowRight")).toBeUndefined();
  });
});
