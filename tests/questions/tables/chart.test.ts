import { describe, expect, test } from "vitest";
import type { TableDrawing } from "../../../src/charts/table-drawing.ts";
import { ask } from "../ask.ts";
import { casesOfColumns, faultsOf, published, reference } from "./tables-of.ts";

const cases = casesOfColumns({
  technique: { kind: "code", values: ["buckle", "vitrectomy", null, "vitrectomy"] },
  age: { kind: "number", values: [30, 50, null, 71] },
  day: { kind: "day", values: [0, 31, 31, null] },
  failed: { kind: "truth", values: [true, false, true, null] },
});

function drawn(working: string, cells = { cases }) {
  const asked = ask(working, cells);
  if (asked.answer.chart?.draw !== "table") throw new Error(`${working} draws nothing`);
  return { ...asked, drawing: asked.answer.chart.drawing as TableDrawing };
}

describe("chart", () => {
  test("bars of numbers of rows, or of what sums them up; each opens its rows", () => {
    const { drawing, sentence, lines } = drawn("chart(cases, across: technique)");
    expect(drawing.across.names).toEqual(["buckle", "vitrectomy", "not recorded"]);
    expect(drawing.marks.map(({ up }) => up)).toEqual([1, 2, 1]);
    expect(lines(drawing.marks[1]?.pick)).toEqual([[3], [5]]);
    expect(sentence).toBe(
      "4 cases: number of cases over technique, from 1 (buckle) to 2 (vitrectomy).",
    );
    const medians = drawn("chart(cases, across: technique, up: median(age))");
    expect(medians.drawing.marks.map(({ up }) => up)).toEqual([30, 60.5, null]);
    expect(medians.sentence).toBe(
      "4 cases: median age over technique, from 30 (buckle) to 60.5 (vitrectomy); 1 value missing.",
    );
    expect(medians.rows.at(-1)).toEqual(["not recorded", "1", "–"]);
  });

  test("a line over days: rows without a day are left out and counted", () => {
    const { drawing, answer, lines, rows } = drawn(
      'chart(cases, across: day, up: share(failed), as: "line")',
    );
    expect(drawing.across).toEqual({ label: "day", kind: "day" });
    expect(drawing.up).toEqual({ label: "share: failed", kind: "share" });
    expect(drawing.marks.map(({ across, up }) => [across, up])).toEqual([
      [0, 1],
      [31, 0.5],
    ]);
    expect(rows).toEqual([
      ["1970-01-01", "1", "100.0%"],
      ["1970-02-01", "2", "50.0%"],
    ]);
    expect(answer.leftOut.map(({ reason, pick }) => [reason, lines(pick)])).toEqual([
      ["day not recorded", [[5]]],
    ]);
  });

  test("points are rows; what lacks either value is counted under one reason", () => {
    const { drawing, answer, lines, sentence } = drawn(
      'chart(cases, across: day, up: age, by: technique, as: "points")',
    );
    expect(drawing.marks.map(({ across, up, group }) => [across, up, group])).toEqual([
      [0, 30, 0],
      [31, 50, 1],
    ]);
    expect(lines(drawing.marks[1]?.pick)).toEqual([[3]]);
    expect(answer.leftOut.map(({ reason, count }) => [reason, count])).toEqual([
      ["day not recorded", 1],
      ["age not recorded", 1],
    ]);
    expect(sentence).toBe("2 cases: age over day, by technique, from 30 to 50.");
  });

  test("boxes have R's quartiles and whiskers; what lies beyond opens its row", () => {
    const births = { cases: published("birthwt") };
    const { drawing, lines } = drawn('chart(cases, across: race, up: bwt, as: "boxes")', births);
    expect(drawing.marks).toHaveLength(3);
    drawing.marks.forEach(({ up, spread }, i) => {
      const { beyond, median, ...box } = reference.births.boxes[String(i + 1)];
      expect(up).toBe(median);
      expect(spread).toMatchObject(box);
      expect(spread?.beyond.map((each) => each.up)).toEqual(beyond);
    });
    const [outlier] = drawing.marks[2]?.spread?.beyond ?? [];
    expect(lines(outlier?.pick)).toHaveLength(1);
  });

  test("nothing to draw is an answer without marks", () => {
    const { drawing, sentence } = drawn("chart(keep(cases, age > 99), across: technique)");
    expect(drawing.marks).toEqual([]);
    expect(sentence).toBe("There are no cases to draw.");
  });

  test.each([
    ['chart(cases, across: technique, as: "boxes")', "boxes need a value that goes up."],
    ["chart(cases, across: technique, up: age)", "has a value for every row"],
    ['chart(cases, across: age, up: technique, as: "points")', "technique has no size"],
    ["chart(cases, across: technique, up: max(day))", "max(day) has no size"],
    ['chart(cases, across: technique, as: "pie")', "is not a choice"],
  ])("refuses %s", (working, message) => {
    expect(faultsOf(working, { cases }).join()).toContain(message);
  });
});
