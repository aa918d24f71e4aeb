import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import { layChart } from "../../src/charts/chart-request.ts";
import { sentenceText } from "../../src/questions/answer.ts";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";
import { groupsOfEyes } from "./groups-of-eyes.ts";

type Row = Readonly<Record<string, CellValue>>;

function cells(rows: readonly Row[]) {
  const all = rows.map((row, eye) =>
    primary({
      patient: `P${eye + 1}`,
      last_seen_date: 1400,
      status_last_seen: "attached",
      ...row,
    }),
  );
  const cases = casesValue(casesOf(all));
  return { cases, eyes: workedOut("index_eyes(cases, within: 12 months)", { cases }) };
}

const at = (hours: readonly string[], more: Row = {}): Row => ({
  break_clock_hours: hours,
  ...more,
});
const failed: Row = { redetachment_date: 1040 };

describe("clock_hours", () => {
  const six = cells([
    at(["10"]),
    at(["2"], { eye: "left" }),
    at(["10", "11", "6"], failed),
    at(["7"], { eye: "left", ...failed }),
    at(["4"]),
    { break_clock_hours: null, break_type: ["none found"] },
  ]);
  const { sentence, rows, answer, lines, figures, cautions } = ask("clock_hours(eyes)", six);

  test("quadrants are told temporal and nasal for each eye", () => {
    expect(rows.slice(0, 6).map((row) => row.slice(0, 7))).toEqual([
      ["superotemporal", "3", "2", "1", "1", "1", "0"],
      ["inferotemporal", "1", "1", "0", "1", "1", "0"],
      ["superonasal", "0", "0", "0", "0", "0", "0"],
      ["inferonasal", "2", "1", "1", "1", "0", "1"],
      ["inferior break (4 to 8 o'clock)", "3", "2", "1", "2", "1", "1"],
      ["no inferior break", "2", "1", "1", "0", "0", "0"],
    ]);
    expect(rows.slice(6).map(([label, eyes]) => `${label} ${eyes}`)).toEqual([
      "12 o'clock 0",
      "1 o'clock 0",
      "2 o'clock 1",
      "3 o'clock 0",
      "4 o'clock 1",
      "5 o'clock 0",
      "6 o'clock 1",
      "7 o'clock 1",
      "8 o'clock 0",
      "9 o'clock 0",
      "10 o'clock 2",
      "11 o'clock 1",
    ]);
  });

  test("what is inferior is a setting", () => {
    const narrow = ask('clock_hours(eyes, inferior: "5 to 7")', six);
    expect(figures.headline).toBe("3 of 5");
    expect(narrow.figures.headline).toBe("2 of 5");
    expect(narrow.sentence).toContain("(5 to 7 o'clock)");
    expect(() => ask('clock_hours(eyes, inferior: "3 to 9")', six)).toThrow("4 to 8");
  });

  test("in words", () => {
    expect(sentence).toMatch(
      /^Of 6 eyes, 5 have the place of a break recorded: superotemporal in 3 \(60\.0%\), inferotemporal in 1 \(20\.0%\), superonasal in none and inferonasal in 2 \(40\.0%\); an eye with several breaks counts in each place\. Of 3 eyes with an inferior break \(4 to 8 o'clock\), 2 failed within 12 months: 66\.7% \(95% .* interval .*\)\. Of 2 eyes without one, none failed within 12 months: 0\.0% \(95% .*\)\.$/,
    );
  });

  test("in brief, the curve's rate is not set beside counts as if it were their quotient", () => {
    const brief = (lost: number) => {
      const eyes = groupsOfEyes([
        { break_clock_hours: ["6"], failed: 2, attached: 10, lost },
        { break_clock_hours: ["12"], failed: 1, attached: 9 },
      ]);
      return sentenceText(ask("clock_hours(eyes)", { eyes }).answer.brief ?? []);
    };
    expect(brief(4)).toMatch(
      /^By the curve 1\d\.\d% failed with an inferior break \(2 of 16\), 10\.0% without \(1 of 10\)\.$/,
    );
    expect(brief(0)).toBe(
      "Failed: with an inferior break 2 of 12 eyes (16.7%), without one 1 of 10 eyes (10.0%).",
    );
  });

  test("a rate is that of failure_rate over the same eyes", () => {
    const eyes = workedOut(
      'index_eyes(cases, within: 12 months, where: break_type is missing and technique = "vitrectomy")',
      six,
    );
    const all = ask("failure_rate(eyes)", { eyes });
    const again = ask("clock_hours(eyes)", { eyes });
    const [inferior, elsewhere] = [again.figures.inferior, again.figures.elsewhere] as unknown as [
      { failed: number; eyes: number },
      { failed: number; eyes: number },
    ];
    expect(inferior.failed + elsewhere.failed).toBe(all.figures.failed);
    expect(inferior.eyes + elsewhere.eyes).toBe(all.figures.eyes);
  });

  test("every count is opened, and every wedge opens the eyes it counts", () => {
    for (const cell of answer.table.rows.flat()) {
      if (cell.pick !== undefined) expect(lines(cell.pick)).toHaveLength(Number(cell.value));
    }
    if (answer.chart?.draw !== "clock rose") throw new Error("no rose is drawn");
    for (const hour of answer.chart.rose.groups.flatMap(({ eyes }) =>
      eyes.flatMap(({ hours }) => hours),
    )) {
      expect(lines(hour.pick)).toHaveLength(hour.eyes);
      expect(lines(hour.failedPick)).toHaveLength(hour.failed);
    }
    expect(lines(answer.leftOut[0]?.pick)).toEqual([[7]]);
  });

  test("the chart counts as the table does", () => {
    if (answer.chart === undefined) throw new Error("no chart");
    const { data } = layChart(answer.chart, { width: 390 });
    for (const row of rows.slice(6)) {
      const drawn = data.filter(({ hour }) => `${hour} o'clock` === row[0]);
      const sum = (field: string): string =>
        String(drawn.reduce((total, each) => total + Number(each[field]), 0));
      expect([sum("eyes"), sum("failed")]).toEqual([row[1], row[4]]);
    }
  });

  test("carries its cautions", () => {
    expect(cautions).toEqual(["counted-in-each", "small-numbers", "many-left-out"]);
  });
});

describe("split by a column", () => {
  const placed = (technique: string, hour: string, more: Row = {}) =>
    Array.from({ length: 12 }, () => at([hour], { technique, surgeon: "S1", ...more }));
  const cellsOfGroups = cells([
    ...placed("scleral buckle", "10"),
    ...placed("scleral buckle", "6", failed),
    ...placed("vitrectomy", "2"),
    at(["6"], { technique: "pneumatic retinopexy", ...failed }),
    at(["11"], { technique: null }),
  ]);
  const { answer, rows, sentence, figures, cautions, lines } = ask(
    "clock_hours(eyes, by: technique)",
    cellsOfGroups,
  );

  test("has every row for each group and for all eyes", () => {
    const labels = [...new Set(rows.map(([group]) => group))];
    expect(labels).toEqual([
      "pneumatic retinopexy",
      "scleral buckle",
      "vitrectomy",
      "not recorded",
      "all eyes",
    ]);
    expect(rows).toHaveLength(5 * 18);
    const inferior = rows.filter(([, at]) => at?.startsWith("inferior break"));
    expect(inferior.map((row) => row.slice(2, 3).concat(row.slice(5, 6)))).toEqual([
      ["1", "1"],
      ["12", "12"],
      ["0", "0"],
      ["0", "0"],
      ["13", "13"],
    ]);
  });

  test("the groups of an answer are those asked alone", () => {
    const one = ask('clock_hours(keep(eyes, technique = "scleral buckle"))', cellsOfGroups);
    expect(rows.slice(18, 36).map((row) => row.slice(1))).toEqual(one.rows);
    const [, group] = figures.groups as unknown as readonly Record<string, unknown>[];
    expect(group?.inferior).toEqual(one.figures.inferior);
    expect(group?.hours).toEqual(one.figures.hours);
  });

  test("draws a pair of roses for each group of ten eyes, every wedge with its own eyes", () => {
    if (answer.chart?.draw !== "clock rose") throw new Error("no rose is drawn");
    const { groups } = answer.chart.rose;
    expect(groups.map(({ label }) => label)).toEqual(["scleral buckle", "vitrectomy"]);
    for (const { eyes } of groups) {
      for (const hour of eyes.flatMap(({ hours }) => hours)) {
        expect(lines(hour.pick)).toHaveLength(hour.eyes);
        expect(lines(hour.failedPick)).toHaveLength(hour.failed);
      }
    }
    expect(cautions).toContain("groups-not-drawn");
  });

  test("says how many of each have an inferior break, of people nothing", () => {
    expect(sentence).toMatch(
      / An inferior break by technique: scleral buckle, 12 of 24 eyes \(50\.0%\); vitrectomy, none of 12 eyes; smaller groups stand in the table\.$/,
    );
    const people = ask("clock_hours(eyes, by: surgeon)", cellsOfGroups);
    expect(people.sentence).not.toContain("by surgeon");
    expect(people.cautions).toContain("comparing-people");
    expect(cautions).toContain("techniques-chosen");
  });
});

describe("the sentence over a grid of answers", () => {
  test.each<[string, readonly Row[], RegExp]>([
    ["no eyes", [], /^No eyes to look at\.$/],
    [
      "no place",
      [{ break_clock_hours: null }],
      /^The place of a break is recorded for none of 1 eye\.$/,
    ],
    [
      "one eye",
      [at(["12"])],
      /^Of 1 eye, 1 has the place of a break recorded: .* and inferonasal in none\. No eye has an inferior break \(4 to 8 o'clock\)\. Of 1 eye without one, none failed within 12 months: 0\.0%/,
    ],
    [
      "all failed",
      Array.from({ length: 30 }, () => at(["6"], failed)),
      /Of 30 eyes with an inferior break \(4 to 8 o'clock\), 30 failed within 12 months: 100\.0% .* No eye is without one\.$/,
    ],
  ])("%s", (_, rows, expected) => {
    const { sentence } = ask("clock_hours(eyes)", cells(rows));
    expect(sentence).toMatch(expected);
    expect(sentence).not.toMatch(/NaN|undefined|null|significan/);
  });
});
