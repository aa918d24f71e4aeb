import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import { layChart } from "../../src/charts/chart-request.ts";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue } from "./ask.ts";

type Row = Readonly<Record<string, CellValue>>;

/** Eyes given by the rows of each, every row an operation 50 days after the one before. */
function cells(eyes: readonly (readonly Row[])[]) {
  const rows = eyes.flatMap((own, eye) =>
    own.map((row, place) =>
      primary({ patient: `P${eye + 1}`, operation_date: 1000 + 50 * place, ...row }),
    ),
  );
  return { cases: casesValue(casesOf(rows)) };
}

const redetached: Row = { redetachment_date: 1040, status_last_seen: "detached" };
const flat: Row = { last_seen_date: 1400, status_last_seen: "attached" };
const again = (technique: string, status: string | null): readonly Row[] => [
  redetached,
  { technique, status_last_seen: status },
];
const watched: readonly Row[] = [{ status_last_seen: "under observation", last_seen_date: 1030 }];

describe("after_failure", () => {
  const unit = cells([
    [flat],
    [flat],
    again("vitrectomy", "attached"),
    again("vitrectomy", "attached under oil"),
    again("vitrectomy", "detached"),
    again("gas injection", "attached"),
    [{ redetachment_date: 1040, status_last_seen: "attached" }],
    [redetached],
    again("vitrectomy", null),
    watched,
  ]);
  const { sentence, rows, answer, lines, figures, cautions } = ask("after_failure(cases)", unit);

  test("the flow from first failure through what was next to the last known state", () => {
    expect(rows.map((row) => row.slice(0, 7))).toEqual([
      ["observed, no operation", "1", "1", "0", "0", "0", "0"],
      ["vitrectomy", "4", "1", "1", "0", "1", "1"],
      ["gas injection", "1", "1", "0", "0", "0", "0"],
      ["no further operation recorded", "1", "0", "0", "0", "1", "0"],
      ["all first failures", "7", "3", "1", "0", "2", "1"],
    ]);
    expect(figures).toMatchObject({ headline: "3 of 7", decided: 6, rate: 0.5 });
    expect(figures.rate_with_oil).toBeCloseTo(4 / 6, 12);
  });

  test("in words", () => {
    // Wilson for 3 of 6: 0.1876 to 0.8124 (Newcombe, Statistics in Medicine 1998;17:857, method 3).
    expect(sentence).toBe(
      "Of 10 eyes, 7 redetached or never lay flat. Next came vitrectomy in 4 and gas injection in 1; " +
        "1 eye was observed without an operation; for 1 no further operation is recorded. At the last visit, of the 6 " +
        "eyes whose state is decided, 3 were attached without oil (50.0%, 95% Wilson interval 18.8 " +
        "to 81.2%), 1 more under oil (66.7% with or without oil) and 2 detached; 1 eye is not " +
        "decided or not known. They had a median of 1 further operation (0 to 1). The outcome of 1 " +
        "suspected failure (fluid under observation, not called a failure) is not decided yet.",
    );
  });

  test("every count is opened, and the boxes of the chart open the same eyes", () => {
    for (const cell of answer.table.rows.flat()) {
      if (typeof cell.value === "number" && cell.pick !== undefined) {
        expect(lines(cell.pick)).toHaveLength(cell.value);
      }
    }
    if (answer.chart?.draw !== "course") throw new Error("no course is drawn");
    const { start, steps } = answer.chart.course;
    expect(lines(start.pick)).toHaveLength(7);
    for (const step of steps) {
      expect(lines(step.pick)).toHaveLength(step.count);
      expect(step.ends.reduce((sum, { count }) => sum + count, 0)).toBe(step.count);
      for (const end of step.ends) expect(lines(end.pick)).toHaveLength(end.count);
    }
  });

  test("an opened eye says what was done and how it ended", () => {
    expect(lines("ended:detached")).toEqual([[8, 9], [13]]);
    expect(lines("suspected")).toEqual([[16]]);
  });

  test("chart and table say the same at both widths", () => {
    if (answer.chart === undefined) throw new Error("no chart");
    for (const width of [780, 390]) {
      const { data } = layChart(answer.chart, { width });
      const steps = data.filter((row) => row.next !== null && row.end === null);
      expect(steps.map(({ next, count }) => [next, String(count)])).toEqual(
        rows.slice(0, -1).map((row) => row.slice(0, 2)),
      );
    }
  });

  test("carries its cautions", () => {
    expect(cautions).toEqual([
      "first-failure-rule",
      "small-numbers",
      "techniques-chosen",
      "ends-not-decided",
    ]);
  });

  test("split by a column, the whole last", () => {
    const both = cells([
      [{ ...redetached, macula: "on" }, { status_last_seen: "attached" }],
      [{ ...redetached, macula: "off" }, { status_last_seen: "detached" }],
    ]);
    const answered = ask("after_failure(cases, by: macula)", both);
    expect(answered.rows.map((row) => row.slice(0, 3))).toEqual([
      ["off", "vitrectomy", "1"],
      ["off", "all first failures", "1"],
      ["on", "vitrectomy", "1"],
      ["on", "all first failures", "1"],
      ["all eyes", "vitrectomy", "2"],
      ["all eyes", "all first failures", "2"],
    ]);
    expect(answered.sentence).toContain(
      "Attached without oil by macula: off 0 of 1 (0.0%); on 1 of 1 (100.0%).",
    );
  });

  test("how a buckle was revised, from a column of the department's own", () => {
    const buckles = cells([
      [
        { ...redetached, technique: "scleral buckle" },
        { technique: "buckle revision", revision: "repositioned" },
      ],
      [
        { ...redetached, technique: "scleral buckle" },
        { technique: "buckle revision", revision: "tightened" },
      ],
    ]);
    expect(ask("after_failure(cases, detail: revision)", buckles).sentence).toContain(
      "Next came buckle revision: repositioned in 1 and buckle revision: tightened in 1.",
    );
    expect(() => ask("after_failure(cases, detail: operation_date)", buckles)).toThrow(
      "does not say anything in words",
    );
  });
});

describe("the sentence over a grid of answers", () => {
  test.each<[string, readonly (readonly Row[])[], RegExp]>([
    ["no eyes", [], /^No eyes to follow\.$/],
    ["none failed", [[flat]], /^No failure is recorded among 1 eye\.$/],
    [
      "one failed, nothing known",
      [[{ never_attached: true }]],
      /^Of 1 eye, 1 redetached or never lay flat\. For 1 no further operation is recorded\. How they stood at the last visit is decided for none of them\. It had no further operation\.$/,
    ],
    [
      "one failed and mended",
      [again("vitrectomy", "attached")],
      /of the 1 eye whose state is decided, 1 was attached without oil \(100\.0%, .*\) and none detached\. It had 1 further operation\.$/,
    ],
    [
      "all failed, none mended",
      Array.from({ length: 30 }, () => again("vitrectomy", "detached")),
      /, none were attached without oil \(0\.0%, .*\) and 30 detached\. They had 1 further operation each\.$/,
    ],
    [
      "suspected, some settled",
      [
        ...watched.map((row) => [{ ...row, final_status: "attached" }]),
        ...[0, 1].map(() => watched),
        [...watched, { status_last_seen: "attached" }],
      ],
      /Of 4 suspected failures \(.*\), 1 settled without an operation \(50\.0% of the 2 decided, 95% Wilson interval 9\.5 to 90\.5%\), 1 came to a further operation and 2 are not decided\.$/,
    ],
  ])("%s", (_, eyes, expected) => {
    const { sentence } = ask("after_failure(cases)", cells(eyes));
    expect(sentence).toMatch(expected);
    expect(sentence).not.toMatch(/NaN|undefined|null|significan/);
  });
});
