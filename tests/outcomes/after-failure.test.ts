import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import { coursesAfterFailure } from "../../src/outcomes/after-failure.ts";
import { indexEyes } from "../../src/outcomes/index-eyes.ts";
import { quartiles } from "../../src/outcomes/quartiles.ts";
import { casesOf, primary } from "./cases-of.ts";

type Row = Readonly<Record<string, CellValue>>;

/** The courses of one eye, given by its rows: each is laid over an operation 50 days later. */
function courses(rows: readonly Row[], options: Parameters<typeof coursesAfterFailure>[2] = {}) {
  const all = rows.map((row, place) => primary({ operation_date: 1000 + 50 * place, ...row }));
  const reading = casesOf(all);
  const record = indexEyes(reading, {
    failure: "redetachment",
    oil: "counted as attached",
    undecided: "bounds",
  });
  return coursesAfterFailure(reading, record, options);
}

const redetached: Row = { redetachment_date: 1040, status_last_seen: "detached" };

describe("the course of an eye after its first failure", () => {
  test.each<[string, readonly Row[], object]>([
    [
      "operated on again",
      [redetached, { technique: "gas injection", status_last_seen: "attached" }],
      { failedDay: 40, next: { technique: "gas injection" }, last: "attached", operations: 1 },
    ],
    [
      "oil taken out is no further repair, and its visit is the last",
      [
        redetached,
        { tamponade: "silicone oil", status_last_seen: "attached under oil" },
        { technique: "oil removal", status_last_seen: "attached" },
      ],
      { next: { technique: "vitrectomy" }, last: "attached", operations: 1 },
    ],
    [
      "a state before a further repair says nothing of the end",
      [redetached, { technique: "vitrectomy", status_last_seen: null }],
      { last: "unknown", operations: 1 },
    ],
    [
      "never flat and nothing done",
      [{ never_attached: true, status_last_seen: "detached" }],
      { failedDay: 0, next: { kind: "none recorded" }, last: "detached", operations: 0 },
    ],
    [
      "watched until it lay flat",
      [{ redetachment_date: 1040, status_last_seen: "attached" }],
      { next: { kind: "observed" }, last: "attached", operations: 0 },
    ],
    [
      "one row an eye: the reoperation and the final state on the same line",
      [
        {
          ...redetached,
          reoperation_date: 1050,
          reoperation_technique: "vitrectomy",
          operations_total: 3,
          final_status: "attached under oil",
        },
      ],
      { next: { technique: "vitrectomy" }, last: "attached under oil", operations: 2 },
    ],
    [
      "one row an eye: a day without a technique",
      [{ reoperation_date: 1050, final_status: "attached" }],
      { failedDay: 50, next: { technique: "technique not recorded" }, operations: 1 },
    ],
    [
      "an element that the eye did not have was added",
      [
        { ...redetached, technique: "scleral buckle", buckle_element: ["segmental"] },
        { technique: "buckle revision", buckle_element: ["segmental", "radial"] },
      ],
      { next: { technique: "buckle revision", detail: "radial element added" } },
    ],
    [
      "a revision of the same element adds none",
      [
        { ...redetached, technique: "scleral buckle", buckle_element: ["segmental"] },
        { technique: "buckle revision", buckle_element: ["segmental"] },
      ],
      { next: { kind: "operation", technique: "buckle revision" } },
    ],
  ])("%s", (_, rows, expected) => {
    const { failed } = courses(rows);
    expect(failed).toHaveLength(1);
    expect(failed[0]).toMatchObject(expected);
  });

  test("a column of the operation says more of it", () => {
    const rows = [redetached, { technique: "buckle revision" }];
    const { failed } = courses(rows, { detail: (row) => (row === 1 ? "tightened" : null) });
    expect(failed[0]?.next).toEqual({
      kind: "operation",
      technique: "buckle revision",
      detail: "tightened",
    });
  });

  test("failures after the window are not looked at", () => {
    expect(courses([redetached], { until: 40 }).failed).toHaveLength(1);
    expect(courses([redetached], { until: 39 }).failed).toHaveLength(0);
  });

  test("an eye that stayed attached has no course", () => {
    expect(courses([{ last_seen_date: 1300, status_last_seen: "attached" }])).toEqual({
      failed: [],
      suspected: [],
    });
  });
});

describe("suspected failures", () => {
  const watched: Row = { last_seen_date: 1045, status_last_seen: "under observation" };

  test.each<[string, readonly Row[], readonly string[]]>([
    ["still watched", [watched], ["not decided"]],
    ["settled by the final state", [{ ...watched, final_status: "attached" }], ["settled"]],
    [
      "settled before the oil was taken out",
      [watched, { technique: "oil removal", status_last_seen: "attached" }],
      ["settled"],
    ],
    [
      "came to an operation",
      [watched, { technique: "vitrectomy", status_last_seen: "attached" }],
      ["operated on"],
    ],
    ["detached", [{ ...watched, final_status: "detached" }], ["detached"]],
    ["watched after a second repair: no suspicion of the first", [redetached, watched], []],
    ["never flat is no suspicion", [{ ...watched, never_attached: true }], []],
  ])("%s", (_, rows, endings) => {
    expect(courses(rows).suspected.map(({ ending }) => ending)).toEqual(endings);
  });
});

// R 4: quantile(c(3, 1, 4, 1, 5), c(.25, .5, .75)) is 1 3 4; of c(1, 2) it is 1.25 1.5 1.75.
test("quartiles are those of definition 7", () => {
  expect(quartiles([3, 1, 4, 1, 5])).toEqual({ lower: 1, median: 3, upper: 4 });
  expect(quartiles([2, 1])).toEqual({ lower: 1.25, median: 1.5, upper: 1.75 });
  expect(quartiles([7])).toEqual({ lower: 7, median: 7, upper: 7 });
  expect(quartiles([])).toBeNull();
});
