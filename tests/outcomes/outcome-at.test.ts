import { describe, expect, test } from "vitest";
import { eyesFrom } from "../../src/outcomes/eyes-from.ts";
import { outcomeAt } from "../../src/outcomes/outcome-at.ts";
import { casesOf } from "./cases-of.ts";

const times = [
  { t: 0, e: true },
  { t: 90, e: true },
  { t: 91, e: true },
  { t: 91, e: false },
  { t: 80, e: false },
  { t: 400, e: true },
  { t: null, e: true },
  { t: 10, e: null },
  { t: -1, e: true },
];

const record = eyesFrom(casesOf(times), {
  time: (row) => times[row]?.t ?? null,
  event: (row) => times[row]?.e ?? null,
  unit: "days",
});

describe("what is known of an eye at a time", () => {
  const at = (time?: number, tolerance = 0) =>
    Array.from(record.time, (_, eye) =>
      outcomeAt(record, eye, { tolerance, ...(time === undefined ? {} : { time }) }),
    );

  test("at 3 months: failed by then, followed so long, or not known", () => {
    expect(at(91)).toEqual(["failed", "failed", "failed", "not failed", "not known", "not failed"]);
  });

  test("a tolerance takes a visit that came early", () => {
    expect(at(91, 14)[4]).toBe("not failed");
  });

  test("without a time: at the end of each eye's own follow-up", () => {
    expect(at()).toEqual(["failed", "failed", "failed", "not failed", "not failed", "failed"]);
  });
});

test("rows without a time, an event or with a time below 0 are left out with their reason", () => {
  expect(record.leftOut).toEqual([
    { reason: "the time is not recorded", lines: [8] },
    { reason: "whether it failed is not recorded", lines: [9] },
    { reason: "the time is below 0", lines: [10] },
  ]);
});
