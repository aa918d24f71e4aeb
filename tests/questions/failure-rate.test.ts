import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";
import { groupsOfEyes } from "./groups-of-eyes.ts";

type Row = Record<string, CellValue>;

/** `failed` eyes that redetached on day 40, `attached` seen for a year, `lost` after 50 days. */
function eyes(groups: readonly (Row & { failed: number; attached: number; lost?: number })[]) {
  let patient = 0;
  const rows = groups.flatMap(({ failed, attached, lost = 0, ...over }) => {
    const eye = (last: number, more: Row = {}): Row => {
      patient += 1;
      return primary({
        patient: `P${patient}`,
        status_last_seen: "attached",
        last_seen_date: 1000 + last,
        ...over,
        ...more,
      });
    };
    return [
      ...Array.from({ length: failed }, () => eye(300, { redetachment_date: 1040 })),
      ...Array.from({ length: attached }, () => eye(400)),
      ...Array.from({ length: lost }, () => eye(50)),
    ];
  });
  return workedOut("index_eyes(cases, within: 12 months)", { cases: casesValue(casesOf(rows)) });
}

describe("failure_rate", () => {
  // 81 of 263, Newcombe RG, Statistics in Medicine 1998;17:857, Table I, method 3 (Wilson):
  // 0.2553 to 0.3662; Clopper–Pearson by R's binom.test: 0.2527 to 0.3676.
  const published = { eyes: eyes([{ failed: 81, attached: 182 }]) };

  test("a published proportion comes out with its published interval", () => {
    const { figures, rows } = ask("failure_rate(eyes)", published);
    expect(figures.rate).toBeCloseTo(81 / 263, 12);
    expect(figures.lower).toBeCloseTo(0.2552885199, 9);
    expect(figures.upper).toBeCloseTo(0.366209577, 9);
    expect(rows).toEqual([
      [
        ...["all eyes", "263", "81", "30.8% (25.5 – 36.6)", ""],
        ...["263", "30.8% (25.5 – 36.6)", "0", "30.8 – 30.8%"],
      ],
    ]);
  });

  test("the exact interval on request, named in the sentence", () => {
    const { figures, sentence } = ask('failure_rate(eyes, interval: "Clopper–Pearson")', published);
    expect(figures.lower).toBeCloseTo(0.2527367456, 9);
    expect(figures.upper).toBeCloseTo(0.3676219226, 9);
    expect(sentence).toContain("95% Clopper–Pearson interval 25.3 to 36.8%");
  });

  test("eyes lost before the window are neither failures nor successes, but bounds", () => {
    const { figures, sentence, cautions } = ask("failure_rate(eyes)", {
      eyes: eyes([{ failed: 10, attached: 70, lost: 20 }]),
    });
    expect(figures).toMatchObject({ failed: 10, eyes: 80, not_known: 20, rate: 0.125 });
    expect(figures).toMatchObject({ lowest: 0.1, highest: 0.3 });
    // Kaplan–Meier by hand: 10 of 100 fail on day 40, before anyone is lost.
    expect(figures.curve).toBeCloseTo(0.1, 12);
    expect(sentence).toBe(
      "Of 100 eyes, 10 redetached or never lay flat within 12 months: by the curve 10.0% (95% " +
        "log-log interval 5.5 to 17.8%). The outcome at 12 months is known for 80 eyes; if none of the " +
        "other 20 had failed the rate would be 10.0%, if all had, 30.0%.",
    );
    expect(cautions).toEqual(["many-not-known"]);
  });

  test("every count leads to the lines of its eyes", () => {
    const { answer, lines } = ask("failure_rate(eyes, by: technique)", {
      eyes: eyes([
        { failed: 2, attached: 1, technique: "scleral buckle" },
        { failed: 1, attached: 3, lost: 1, technique: "vitrectomy" },
      ]),
    });
    const [buckle, vitrectomy, all] = answer.table.rows;
    expect(lines(buckle?.[2]?.pick)).toEqual([[2], [3]]);
    expect(lines(vitrectomy?.[5]?.pick)).toEqual([[5], [6], [7], [8]]);
    expect(lines(vitrectomy?.[7]?.pick)).toEqual([[9]]);
    expect(lines(all?.[2]?.pick)).toEqual([[2], [3], [5]]);
    expect(lines(all?.[1]?.pick)).toHaveLength(8);
  });

  test("a part is read by name", () => {
    const cells = { eyes: eyes([{ failed: 1, attached: 3 }]) };
    const how_often = workedOut("failure_rate(eyes)", cells);
    expect(workedOut("1 - how_often.rate", { how_often })).toEqual({
      kind: "number",
      number: 0.75,
    });
  });

  test("groups where the column is missing stand apart at the end", () => {
    const { rows } = ask("failure_rate(eyes, by: technique)", {
      eyes: eyes([
        { failed: 1, attached: 3, technique: null },
        { failed: 1, attached: 3, technique: "vitrectomy" },
      ]),
    });
    expect(rows.map(([label]) => label)).toEqual(["vitrectomy", "not recorded", "all eyes"]);
  });

  test("a comparison of techniques and of people carries its caution", () => {
    const cells = { eyes: eyes([{ failed: 9, attached: 30, surgeon: "A" }]) };
    expect(ask("failure_rate(eyes, by: technique)", cells).cautions).toEqual(["techniques-chosen"]);
    expect(ask("failure_rate(eyes, by: surgeon)", cells).cautions).toEqual(["comparing-people"]);
  });

  test("both eyes of a patient are said to be there", () => {
    const { cautions } = ask("failure_rate(eyes)", {
      eyes: workedOut("index_eyes(cases)", {
        cases: casesValue(
          casesOf([
            primary({ last_seen_date: 1400, status_last_seen: "attached" }),
            primary({ eye: "left", last_seen_date: 1400, status_last_seen: "attached" }),
          ]),
        ),
      }),
    });
    expect(cautions).toEqual(["small-numbers", "paired-eyes"]);
  });

  test("a window longer than the eyes are followed is refused in words", () => {
    const cells = { eyes: eyes([{ failed: 1, attached: 1 }]) };
    expect(() => ask("failure_rate(eyes, within: 24 months)", cells)).toThrow(
      "the eyes are followed for 12 months only",
    );
  });

  test("a column that is not there is refused with the nearest one", () => {
    const cells = { eyes: eyes([{ failed: 1, attached: 1 }]) };
    expect(() => ask("failure_rate(eyes, by: techniqe)", cells)).toThrow("technique");
  });
});

test("a group whose name is a number is told as a group", () => {
  const { answer, sentence } = ask("failure_rate(eyes, by: quadrants_detached)", {
    eyes: groupsOfEyes([
      { quadrants_detached: 1, failed: 2, attached: 20 },
      { quadrants_detached: 3, failed: 9, attached: 11 },
    ]),
  });
  // Drawn without its table, "1" and "3" alone would say nothing.
  const { chart } = answer;
  expect(chart?.draw === "intervals" && chart.intervals.splitBy).toBe("quadrants detached");
  expect(sentence).toMatch(
    /from 9\.1% \(group 1, 2 failed of 22; .* to 45\.0% \(group 3, 9 failed/,
  );
});

test("a rate that is no quotient of the counts beside it is said to be the curve's", () => {
  const groups = [
    { macula: "on", failed: 3, attached: 30, lost: 9 },
    { macula: "off", failed: 9, attached: 20, lost: 8 },
  ];
  const working = "failure_rate(eyes, by: macula)";
  const lost = ask(working, { eyes: groupsOfEyes(groups) });
  expect(lost.sentence).toContain(" By macula, by the curve from ");
  expect(lost.answer.table.columns[3]?.label).toBe("failed by 12 months, by the curve (95%)");
  const known = groups.map((group) => ({ ...group, lost: 0 }));
  const { answer, sentence } = ask(working, { eyes: groupsOfEyes(known) });
  expect(sentence).toContain(" By macula from ");
  expect(answer.table.columns[3]?.label).toBe("failed by 12 months (95%)");
  const charts = [lost.answer, answer].map(({ chart }) =>
    chart?.draw === "intervals" ? chart.intervals.how : "no chart",
  );
  expect(charts).toEqual(["by the curve", undefined]);
});

describe("what the question itself leaves out", () => {
  test("raises no caution, however much it is; what is missing does", () => {
    const rows = Array.from({ length: 20 }, (_, eye) =>
      primary({
        patient: `P${eye}`,
        technique: eye < 15 ? "scleral buckle" : "vitrectomy",
        last_seen_date: 1400,
        status_last_seen: "attached",
      }),
    );
    const asking = (where: string, cases: readonly Row[] = rows) =>
      ask("failure_rate(eyes)", {
        eyes: workedOut(`index_eyes(cases, where: ${where})`, {
          cases: casesValue(casesOf(cases)),
        }),
      });
    const condition = 'technique = "vitrectomy"';
    expect(asking(condition).cautions).toEqual(["small-numbers"]);
    const silent = rows.map((row, eye) => (eye < 15 ? { ...row, technique: null } : row));
    expect(asking(condition, silent).cautions).toEqual(["small-numbers", "many-left-out"]);
  });
});

describe("the sentence over a grid of answers", () => {
  const sentence = (failed: number, attached: number, lost: number): string =>
    ask("failure_rate(eyes)", { eyes: eyes([{ failed, attached, lost }]) }).sentence;

  test.each<[number, number, number, RegExp]>([
    [0, 0, 0, /^No eyes to count\.$/],
    [
      0,
      0,
      3,
      /^Of 3 eyes, none is known to have redetached or never to have lain flat within 12 months\. .* is known for no eye; if none of them had failed .* 0\.0%, if all had, 100\.0%\.$/,
    ],
    [0, 0, 1, / is known for no eye; if it had not failed .* 0\.0%, if it had, 100\.0%\.$/],
    [0, 5, 2, /^Of 7 eyes, none is known to have redetached or never to have lain flat within/],
    [0, 1, 0, /^Of 1 eye, all lay flat and none redetached within 12 months: 0\.0%/],
    [
      0,
      40,
      0,
      /all lay flat and none redetached within 12 months: 0\.0% \(95% Wilson interval 0\.0 to 8\.8%\)\.$/,
    ],
    [1, 0, 0, /^Of 1 eye, 1 redetached or never lay flat within 12 months: 100\.0%/],
    [1, 9, 1, / is known for 10 eyes; if the other had not failed .* 9\.1%, if it had, 18\.2%\.$/],
    [40, 0, 0, /40 redetached .* 12 months: 100\.0% \(95% Wilson interval 91\.2 to 100\.0%\)\.$/],
    [30, 170, 90, / known for 200 eyes; if none of the other 90 .* 10\.3%, if all had, 41\.4%\.$/],
  ])("%i failed, %i attached, %i lost", (failed, attached, lost, expected) => {
    expect(sentence(failed, attached, lost)).toMatch(expected);
    expect(sentence(failed, attached, lost)).not.toMatch(/NaN|undefined|null|significan/);
  });
});
