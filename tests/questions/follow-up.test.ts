import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCases } from "../../src/cases/read-cases.ts";
import { primary } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";
import { eyesOf, type Row } from "./groups-of-eyes.ts";

/** Freireich EJ et al., Blood 1963;21:699: weeks in remission on 6-MP and on placebo. */
const freireich = workedOut('eyes_from(cases, time: time, event: status = 1, unit: "weeks")', {
  cases: casesValue(
    readCases({
      name: "freireich.csv",
      bytes: new Uint8Array(readFileSync("tests/references/data/freireich.csv")),
    }),
  ),
});

/** Eyes seen last, or failed, or dead, on a day after their operation on day 1000. */
function eyes(ends: readonly Row[], within?: string) {
  const rows = ends.map((end, i) =>
    primary({ patient: `P${i}`, status_last_seen: "attached", ...end }),
  );
  return { eyes: eyesOf(rows, within ?? "within: 60 months") };
}

describe("follow_up", () => {
  test("the median by the reverse Kaplan–Meier estimate, as R gives it", () => {
    // survfit of the censorings on 6-MP, log-log limits, R package survival 3.5-3: 25 (11 to 32).
    const { figures, rows } = ask("follow_up(eyes, by: group)", { eyes: freireich });
    const groups = figures.groups as unknown as readonly Record<string, unknown>[];
    expect(groups[0]).toMatchObject({
      group: "6-MP",
      median: 25,
      median_lower: 11,
      median_upper: 32,
    });
    expect(rows[0]?.[4]).toBe("25 weeks (11 – 32)");
    expect(rows[0]?.at(-1)).toBe("–");
  });

  // Operated on day 1000; 12 months are 365 days. By hand.
  const cells = eyes([
    { last_seen_date: 1400 },
    { last_seen_date: 1200 },
    { last_seen_date: 1050, technique: "scleral buckle" },
    { last_seen_date: 1300, redetachment_date: 1100 },
    { last_seen_date: 1150, death_date: 1160 },
    { operation_date: 1300, last_seen_date: 1350 },
  ]);
  const { sentence, figures, rows, answer, lines, cautions } = ask("follow_up(eyes)", cells);

  test("lost are neither the failed, nor the dead, nor those whose time had not come", () => {
    // The last eye could be followed for 100 days only, since the last day seen is 1400.
    expect(figures.lost).toEqual([
      { before: "3 months", lost: 2, due: 6 },
      { before: "6 months", lost: 1, due: 5 },
      { before: "12 months", lost: 2, due: 5 },
    ]);
    expect(rows[0]?.slice(5, 8)).toEqual(["2 of 6 (33.3%)", "1 of 5 (20.0%)", "2 of 5 (40.0%)"]);
    expect(lines(answer.table.rows[0]?.[7]?.pick)).toEqual([[3], [4]]);
    expect(cautions).toContain("many-lost");
  });

  test("completeness is what was observed of what was possible", () => {
    // Possible: 400, 400, 400, 100 (failed), 160 (died), 100; observed: 400, 200, 50, 100, 160, 50.
    expect(figures).toMatchObject({ observed: 960, possible: 1560, closing_day: "1973-11-01" });
    expect(figures.completeness).toBeCloseTo(960 / 1560, 12);
  });

  test("the sentence says all of it", () => {
    expect(sentence).toBe(
      "Of 6 eyes the median follow-up is 200 days (reverse Kaplan–Meier, 95% log-log interval 50 to not " +
        "reached). Lost to follow-up: 2 of 6 before 3 months (33.3%), 1 of 5 before 6 months (20.0%), " +
        "2 of 5 before 12 months (40.0%). Of the follow-up that was possible up to 1973-11-01, the " +
        "last day seen in the file, 61.5% was observed (completeness index).",
    );
  });

  test("a closing day given by the reader, and eyes operated after it", () => {
    const given = ask("follow_up(eyes, until: 1973-04-01)", cells);
    // 1973-04-01 is day 1186: possible 186, 186, 186, 100, 160; observed 186, 186, 50, 100, 160.
    expect(given.figures).toMatchObject({ observed: 682, possible: 818 });
    expect(given.answer.leftOut).toEqual([
      { reason: "operated after the closing day", count: 1, pick: "aside0" },
    ]);
    expect(given.lines("aside0")).toEqual([[7]]);
    expect(given.sentence).toContain("possible up to 1973-04-01, 83.4% was observed");
  });

  test("a visit may come early by the tolerance", () => {
    const early = eyes([{ last_seen_date: 1355 }, { last_seen_date: 1500 }]);
    expect(ask("follow_up(eyes)", early).sentence).toContain("1 of 2 before 12 months (50.0%)");
    expect(ask("follow_up(eyes, tolerance: 14 days)", early).sentence).toContain(
      "None was lost before 12 months.",
    );
  });

  test("eyes with oil in are set aside with their reason", () => {
    const oil = eyes([
      { last_seen_date: 1400, tamponade: "silicone oil", status_last_seen: "attached under oil" },
      { last_seen_date: 1400 },
    ]);
    const { answer: withOil } = ask("follow_up(eyes)", oil);
    expect(withOil.used).toBe(1);
    expect(withOil.leftOut).toEqual([
      { reason: "oil in: not followed by the rule for oil", count: 1, pick: "aside0" },
    ]);
  });

  test("chart, table and sentence rest on the same eyes", () => {
    if (answer.chart?.draw !== "attachment curves") throw new Error("no curves are drawn");
    const { curves } = answer.chart;
    const [group] = curves.groups;
    expect(group?.steps.map(({ pick }) => lines(pick).length)).toEqual([2, 1, 1]);
    expect(curves.atRisk[0]?.[0]).toBe(6);
    expect(curves.words?.share).toContain("still followed");
  });

  test("a window on the eyes is said to cut follow-up", () => {
    const cut = eyes([{ last_seen_date: 1400 }, { last_seen_date: 1400 }], "within: 6 months");
    const { cautions: said, rows: table } = ask("follow_up(eyes)", cut);
    expect(said).toEqual(["follow-up-cut"]);
    expect(table[0]?.slice(5)).toEqual(["0 of 2", "0 of 2", "100.0%"]);
  });
});

describe("the sentence of follow_up over a grid of answers", () => {
  test.each<[string, readonly Row[], RegExp]>([
    ["none", [], /^No eyes to follow\.$/],
    [
      "one, never seen",
      [{ status_last_seen: null }],
      /^Of 1 eye the median follow-up is 0 days .*/,
    ],
    [
      "one, failed",
      [{ never_attached: true }],
      /^Of 1 eye the longest follow-up is 0 days; the median is not/,
    ],
    [
      "one, seen",
      [{ last_seen_date: 1400 }],
      /None was lost before 12 months\..* 100\.0% was observed/,
    ],
    [
      "two",
      [{ last_seen_date: 1001 }, { last_seen_date: 1400 }],
      /1 of 2 before 12 months \(50\.0%\)/,
    ],
  ])("%s", (_, ends, expected) => {
    const { sentence } = ask("follow_up(eyes)", eyes(ends));
    expect(sentence).toMatch(expected);
    expect(sentence).not.toMatch(/NaN|undefined|null/);
  });
});
