import { describe, expect, it } from "vitest";
import type { Course } from "../../src/charts/course.ts";
import { courseChart } from "../../src/charts/course-chart.ts";
import type { Layer } from "../../src/charts/layers.ts";
import { hostileLabels } from "./example-charts.ts";

const course: Course = {
  start: { label: "first failures", count: 12, pick: "all" },
  steps: [
    {
      label: "vitrectomy",
      count: 9,
      pick: "v",
      ends: [
        { label: "attached", count: 7, tone: "attached", pick: "v:a" },
        { label: "detached", count: 2, tone: "failed" },
      ],
    },
    { label: "no further operation recorded", count: 3, ends: [{ label: "detached", count: 3 }] },
  ],
};

it("tells the course with the counts handed in", () => {
  const chart = courseChart(course, { width: 640 });
  expect(chart.description).toBe(
    "12 first failures. vitrectomy 9: 7 attached, 2 detached. " +
      "no further operation recorded 3: 3 detached.",
  );
  expect(chart.data.map(({ count }) => count)).toEqual([12, 9, 7, 2, 3, 3]);
});

describe.each([320, 390, 640, 780])("at %i px", (width) => {
  const { spec } = courseChart(course, { width });
  const { layer, height } = spec as { readonly layer: readonly Layer[]; readonly height: number };
  const rects = layer.find(({ mark }) => mark.type === "rect")!.data.values;

  it("has a box for the event, each step and each end, none over another, all within", () => {
    expect(rects).toHaveLength(5);
    rects.forEach((a, i) => {
      expect(Number(a.x2)).toBeLessThanOrEqual(width - 2 + 1e-9);
      expect(Number(a.y2)).toBeLessThanOrEqual(height + 1e-9);
      for (const b of rects.slice(i + 1)) {
        const apart =
          Number(a.x2) <= Number(b.x) ||
          Number(b.x2) <= Number(a.x) ||
          Number(a.y2) <= Number(b.y) ||
          Number(b.y2) <= Number(a.y);
        expect(apart).toBe(true);
      }
    });
  });
});

it("also stands with nothing after the event, and with names of any kind", () => {
  expect(courseChart({ ...course, steps: [] }, { width: 640 }).description).toBe(
    "12 first failures.",
  );
  const steps = hostileLabels.map((label) => ({ label, count: 1, ends: [{ label, count: 1 }] }));
  const chart = courseChart({ ...course, steps }, { width: 390 });
  expect(chart.description).not.toMatch(/\p{Cc}/u);
});
