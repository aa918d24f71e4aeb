import { describe, expect, test } from "vitest";
import { lowVisionTables } from "../../src/cases/acuity.ts";
import type { CellValue } from "../../src/cases/table.ts";
import { acuityPairs, hasGained, hasLost } from "../../src/outcomes/acuity-pairs.ts";
import { indexEyes } from "../../src/outcomes/index-eyes.ts";
import { casesOf, primary } from "./cases-of.ts";

type Row = Readonly<Record<string, CellValue>>;

function pairs(rows: readonly Row[], tableName = "Bach") {
  const reading = casesOf(rows.map((row) => primary(row)));
  const record = indexEyes(reading, {
    failure: "redetachment",
    oil: "counted as attached",
    undecided: "bounds",
  });
  const table = lowVisionTables.find(({ name }) => name === tableName);
  if (table === undefined) throw new Error(`no table ${tableName}`);
  return acuityPairs(record, table);
}

const handMovements: Row = {
  acuity_before: 2.3,
  acuity_before_written: "HM",
  acuity_after: 0.3,
  acuity_after_written: "6/12",
};

describe("low vision by the table asked for", () => {
  // Bach, acuity conversion chart: 2.3; Schulze-Bonsel, IOVS 2006;47:1236: 0.005, 2.301030;
  // Lange, Graefes Arch 2009: 2.28; Holladay, J Refract Surg 1997: 3.0 at two feet.
  test.each([
    ["Bach", 2.3],
    ["Schulze-Bonsel 2006", 2.30103],
    ["Lange 2009", 2.28],
    ["Holladay 1997", 3],
  ])("hand movements are by %s %f, whatever was used on reading", (name, logMar) => {
    const { pairs: found } = pairs([handMovements], name);
    expect(found[0]?.before).toBeCloseTo(logMar, 6);
    expect(found[0]).toMatchObject({ after: 0.3, lowBefore: "HM", lowAfter: null });
  });

  test("light perception has no number in some tables: the eye is left out and says why", () => {
    const light = { ...handMovements, acuity_before: 2.7, acuity_before_written: "PL" };
    expect(pairs([light]).pairs[0]?.before).toBeCloseTo(2.7, 12);
    expect(pairs([light], "Lange 2009")).toEqual({
      pairs: [],
      without: [{ reason: "LP has no number in the table of Lange 2009", eyes: [0] }],
    });
  });

  test("counting fingers at one foot is 1/200 by Holladay", () => {
    const fingers = { ...handMovements, acuity_before_written: "CF @ 1 ft" };
    expect(pairs([fingers], "Holladay 1997").pairs[0]?.before).toBeCloseTo(Math.log10(200), 12);
  });
});

test("a missing acuity is no zero", () => {
  const some = { acuity_before: 0.3, acuity_after: 0.1 };
  const found = pairs([
    { patient: "P1", ...some },
    { patient: "P2", ...some, acuity_before: null },
    { patient: "P3", ...some, acuity_after: null },
    { patient: "P4" },
  ]);
  expect(found.pairs.map(({ eye }) => eye)).toEqual([0]);
  expect(found.without).toEqual([
    { reason: "the acuity before is not recorded", eyes: [1] },
    { reason: "no acuity after is recorded", eyes: [2] },
    { reason: "neither acuity is recorded", eyes: [3] },
  ]);
});

test("the acuity after is the last one recorded on any operation of the eye", () => {
  const found = pairs([
    { acuity_before: 1, acuity_after: 0.9, acuity_after_date: 1030 },
    { operation_date: 1050, acuity_before: 0.9, acuity_after: 0.2, acuity_after_date: 1300 },
    { operation_date: 1400, technique: "oil removal", acuity_before: 0.2, acuity_after: null },
  ]);
  expect(found.pairs).toHaveLength(1);
  expect(found.pairs[0]).toMatchObject({ before: 1, after: 0.2, afterDays: 300 });
});

test("three lines are 0.3 although the difference of two logMAR is not exact", () => {
  const [pair] = pairs([{ acuity_before: 0.7, acuity_after: 0.4 }]).pairs;
  expect(pair?.change).toBeGreaterThan(-0.3);
  const gained = pairs([{ acuity_before: 0.7, acuity_after: 0.4 }]).pairs.filter(hasGained);
  const lost = pairs([{ acuity_before: 0.1, acuity_after: 0.4 }]).pairs.filter(hasLost);
  const neither = pairs([{ acuity_before: 0.5, acuity_after: 0.22 }]).pairs;
  expect([gained.length, lost.length]).toEqual([1, 1]);
  expect(neither.some((each) => hasGained(each) || hasLost(each))).toBe(false);
});
