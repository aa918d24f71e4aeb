import fc from "fast-check";
import { expect, it } from "vitest";
import { type LabelPlace, spreadLabels } from "../../src/charts/spread-labels.ts";

const span = { top: 0, bottom: 200 };
const places = fc.array(
  fc.record({
    wanted: fc.integer({ min: -20, max: 220 }),
    height: fc.integer({ min: 10, max: 33 }),
  }),
  { maxLength: 6 },
);

it("leaves labels alone that do not touch", () => {
  expect(spreadLabels([at(20), at(60), at(40)], span)).toEqual([20, 60, 40]);
});

it("moves labels at one place evenly apart, in the order given", () => {
  expect(spreadLabels([at(100), at(100), at(100)], span)).toEqual([80, 100, 120]);
});

it("keeps labels in the span", () => {
  expect(spreadLabels([at(0), at(0)], span)).toEqual([10, 30]);
  expect(spreadLabels([at(200), at(199)], span)).toEqual([190, 170]);
});

it("has nothing to do for none", () => {
  expect(spreadLabels([], span)).toEqual([]);
});

it("never lets labels overlap, leave the span or change order (200 px hold six of 33)", () => {
  fc.assert(
    fc.property(places, (labels) => {
      const centres = spreadLabels(labels, span);
      const order = labels.map((_, i) => i).sort((a, b) => labels[a]!.wanted - labels[b]!.wanted);
      let foot = span.top;
      for (const i of order) {
        expect(centres[i]! - labels[i]!.height / 2).toBeGreaterThanOrEqual(foot - 1e-9);
        foot = centres[i]! + labels[i]!.height / 2;
      }
      expect(foot).toBeLessThanOrEqual(span.bottom + 1e-9);
    }),
    { seed: 1 },
  );
});

it("shifts no more in squares than other arrangements in that order", () => {
  fc.assert(
    fc.property(places, fc.double({ min: -3, max: 3, noNaN: true }), (labels, nudge) => {
      const best = cost(labels, spreadLabels(labels, span));
      const others = labels.map((label) => ({ ...label, wanted: label.wanted + nudge }));
      expect(best).toBeLessThanOrEqual(cost(labels, spreadLabels(others, span)) + 1e-6);
    }),
    { seed: 2 },
  );
});

function at(wanted: number): LabelPlace {
  return { wanted, height: 20 };
}

function cost(labels: readonly LabelPlace[], centres: readonly number[]): number {
  return labels.reduce((sum, { wanted }, i) => sum + (centres[i]! - wanted) ** 2, 0);
}
