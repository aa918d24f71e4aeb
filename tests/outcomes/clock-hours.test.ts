import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import {
  breaksByEye,
  clockSpan,
  inferiorHours,
  isBetweenHours,
  mirroredHour,
  quadrantOf,
} from "../../src/outcomes/clock-hours.ts";
import { indexEyes } from "../../src/outcomes/index-eyes.ts";
import { casesOf, primary } from "./cases-of.ts";

// The universal convention of the clock face: common practice, no source.
describe("clock hours as the surgeon faces the patient", () => {
  test.each([
    [10.5, "right", "superotemporal"],
    [1.5, "left", "superotemporal"],
    [1.5, "right", "superonasal"],
    [4, "right", "inferonasal"],
    [4, "left", "inferotemporal"],
    [7, "right", "inferotemporal"],
    [8, "left", "inferonasal"],
  ] as const)("%f in a %s eye is %s", (hour, side, quadrant) => {
    expect(quadrantOf(hour, side)).toBe(quadrant);
  });

  test.each([
    [12, "superonasal", "superotemporal"],
    [3, "inferonasal", "inferotemporal"],
    [6, "inferotemporal", "inferonasal"],
    [9, "superotemporal", "superonasal"],
  ] as const)("a quadrant begins at %i and ends before the next", (hour, right, left) => {
    expect([quadrantOf(hour, "right"), quadrantOf(hour, "left")]).toEqual([right, left]);
  });

  test("the other eye is mirrored about 12 and 6, and mirroring twice changes nothing", () => {
    expect([12, 1, 3, 6, 10].map(mirroredHour)).toEqual([12, 11, 9, 6, 2]);
    for (let hour = 1; hour <= 12; hour++) expect(mirroredHour(mirroredHour(hour))).toBe(hour);
  });

  test("between its ends a quadrant mirrors to the quadrant of the same name", () => {
    for (let hour = 0.5; hour < 12; hour++) {
      expect(quadrantOf(hour, "right")).toBe(quadrantOf(mirroredHour(hour), "left"));
    }
  });

  test("an extent wraps past 12", () => {
    expect([clockSpan(11, 2), clockSpan(8, 4), clockSpan(4, 8), clockSpan(12, 3)]).toEqual([
      3, 8, 4, 3,
    ]);
    const hours = Array.from({ length: 12 }, (_, i) => i + 1);
    const within = (from: number, to: number): number[] =>
      hours.filter((hour) => isBetweenHours(hour, { from, to }));
    expect(within(11, 2)).toEqual([1, 2, 11, 12]);
    expect(inferiorHours.map(({ from, to }) => within(from, to))).toEqual([
      [4, 5, 6, 7, 8],
      [5, 6, 7],
    ]);
  });
});

test("the breaks of each eye, and why some have none", () => {
  const row = (patient: string, over: Readonly<Record<string, CellValue>>) =>
    primary({ patient, ...over });
  const reading = casesOf([
    row("P1", { break_clock_hours: ["10", "2", "10"] }),
    row("P2", { break_clock_hours: null, break_type: ["none found"] }),
    row("P3", { break_clock_hours: null, break_type: ["round hole"] }),
    row("P4", { break_clock_hours: ["6"], eye: "left" }),
  ]);
  const record = indexEyes(reading, {
    failure: "redetachment",
    oil: "counted as attached",
    undecided: "bounds",
  });
  expect(breaksByEye(record)).toEqual({
    eyes: [
      { eye: 0, side: "right", hours: [2, 10] },
      { eye: 3, side: "left", hours: [6] },
    ],
    without: [
      { reason: "no break was found", eyes: [1] },
      { reason: "the place of the breaks is not recorded", eyes: [2] },
    ],
  });
});
