import { describe, expect, test } from "vitest";
import type { CellValue } from "../../src/cases/table.ts";
import { layChart } from "../../src/charts/chart-request.ts";
import { verdictOf } from "../../src/questions/standard/verdict.ts";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";
import { groupsOfEyes } from "./groups-of-eyes.ts";

type Row = Readonly<Record<string, CellValue>>;

function cells(groups: readonly (Row & { failed: number; attached: number })[]) {
  const rows = groups.flatMap(({ failed, attached, ...over }) => [
    ...Array.from({ length: failed }, () => ({ ...over, redetachment_date: 1040 })),
    ...Array.from({ length: attached }, () => over),
  ]);
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

/** 81 of 263 failed: Newcombe RG, Statistics in Medicine 1998;17:857, Wilson 0.2553 to 0.3662. */
const published = cells([{ failed: 81, attached: 182 }]);
const rate = "failure_rate(eyes)";
const sentenceOf = (working: string, given = published): string => ask(working, given).sentence;

describe("the verdict is decided by the interval and not by the point", () => {
  test.each([
    [0.26, 0.36, "at most", 0.4, "met"],
    [0.26, 0.36, "at most", 0.36, "met"],
    [0.26, 0.36, "at most", 0.3, "cannot tell yet"],
    [0.26, 0.36, "at most", 0.26, "cannot tell yet"],
    [0.26, 0.36, "at most", 0.25, "not met"],
    [0.64, 0.74, "at least", 0.6, "met"],
    [0.64, 0.74, "at least", 0.64, "met"],
    [0.64, 0.74, "at least", 0.7, "cannot tell yet"],
    [0.64, 0.74, "at least", 0.75, "not met"],
    [0, 0.1, "at most", 0, "cannot tell yet"],
    [0, 0, "at most", 0, "met"],
  ] as const)("%f to %f, %s %f: %s", (lower, upper, side, level, verdict) => {
    expect(verdictOf({ lower, upper }, { side, level })).toBe(verdict);
  });

  test("at least 85% attached and at most 15% failed are the same standard", () => {
    for (const failed of [0, 5, 15, 25, 40, 70]) {
      const unit = cells([{ failed, attached: 100 - failed }]);
      const least = ask(`standard(${rate}, at_least: 85%, source: "x")`, unit).figures;
      const most = ask(`standard(${rate}, at_most: 15%, source: "x")`, unit).figures;
      expect(least.verdict).toBe(most.verdict);
      expect(Number(least.rate) + Number(most.rate)).toBeCloseTo(1, 12);
    }
  });

  test("nothing known, nothing judged", () => {
    expect(verdictOf(null, { side: "at most", level: 0.5 })).toBe("cannot tell yet");
  });
});

describe("in words", () => {
  test("met", () => {
    expect(sentenceOf(`standard(${rate}, at_most: 40%, source: "the unit, 2026")`)).toBe(
      "Met: 81 of 263 failed within 12 months (redetachment): 30.8% (95% Wilson interval 25.5 to " +
        "36.6%); all of that interval lies at or below the standard of at most 40% (the unit, 2026).",
    );
  });

  test("eyes of which nothing is known are told, with how far they could move the rate", () => {
    const unit = cells([{ failed: 2, attached: 7 }]);
    const eyes = groupsOfEyes([{ failed: 2, attached: 7, lost: 1 }]);
    const told = sentenceOf(`standard(${rate}, at_most: 40%, source: "x")`, { ...unit, eyes });
    expect(told).toMatch(
      / The outcome of 1 eye is not known: 20\.0% failed if it did not, 30\.0% if it did\.$/,
    );
    const last = 'index_eyes(cases, failure: "detached at last visit")';
    const rows = ["attached", "detached", "unknown", "unknown"].map((status_last_seen, at) =>
      primary({ patient: `Q${at}`, last_seen_date: 1400, status_last_seen }),
    );
    const cases = casesValue(casesOf(rows));
    expect(
      sentenceOf('standard(failure_rate(eyes), at_most: 40%, source: "x")', {
        cases,
        eyes: workedOut(last, { cases }),
      }),
    ).toMatch(
      /The outcome of 2 eyes is not known: 25\.0% failed if none of them did, 75\.0% if all did\.$/,
    );
  });

  test("every count of the table opens as many eyes as it tells", () => {
    const eyes = groupsOfEyes([{ failed: 2, attached: 7, lost: 3 }]);
    const last = workedOut('index_eyes(cases, failure: "detached at last visit")', {
      cases: casesValue(
        casesOf(
          ["attached", "detached", "unknown"].map((status_last_seen, at) =>
            primary({ patient: `Q${at}`, last_seen_date: 1400, status_last_seen }),
          ),
        ),
      ),
    });
    for (const given of [eyes, last]) {
      const { answer, lines } = ask(`standard(${rate}, at_most: 40%, source: "x")`, {
        ...published,
        eyes: given,
      });
      const counts = answer.table.rows.flat().filter(({ text }) => /^[1-9]\d*$/.test(text));
      expect(counts).toHaveLength(3);
      for (const { pick, value } of counts) expect(lines(pick)).toHaveLength(Number(value));
    }
  });

  test("not met", () => {
    expect(sentenceOf(`standard(${rate}, at_least: 82.5%, source: "the unit, 2026")`)).toBe(
      "Not met: 81 of 263 failed within 12 months (redetachment); an estimated 69.2% were free of " +
        "failure (95% Wilson interval 63.4 to 74.5%); all of that interval lies below the standard of at least " +
        "82.5% (the unit, 2026).",
    );
  });

  test("cannot tell yet, with what is to follow", () => {
    const { sentence, figures, cautions } = ask(
      `standard(${rate}, at_least: 70%, source: "the unit, 2026", action: "look at each failure.", role: "audit lead", re_audit: 2027-03-31)`,
      published,
    );
    expect(sentence).toBe(
      "Cannot tell yet: 81 of 263 failed within 12 months (redetachment); an estimated 69.2% were " +
        "free of failure (95% Wilson interval 63.4 to 74.5%); that interval lies on both sides of the standard of at " +
        "least 70% (the unit, 2026). Action: look at each failure. Owner: audit lead. Re-audit: " +
        "2027-03-31.",
    );
    expect(figures).toMatchObject({
      headline: "cannot tell yet",
      is_met: false,
      source: "the unit, 2026",
      action: "look at each failure.",
      role: "audit lead",
      re_audit: "2027-03-31",
    });
    expect(cautions).not.toContain("cycle-open");
  });

  test.each<[string, Parameters<typeof cells>[0], RegExp]>([
    [
      "no eyes",
      [],
      /^Cannot tell yet: there are no eyes to set against the standard of at least 85% \(x\)\.$/,
    ],
    [
      "one eye",
      [{ failed: 0, attached: 1 }],
      /^Cannot tell yet: none of 1 failed within 12 months \(redetachment\); an estimated 100\.0% were free of failure/,
    ],
    [
      "all failed",
      [{ failed: 30, attached: 0 }],
      /^Not met: 30 of 30 failed within 12 months \(redetachment\); an estimated 0\.0% were free/,
    ],
    ["none failed", [{ failed: 0, attached: 60 }], /^Met: none of 60 failed/],
  ])("%s", (_, groups, expected) => {
    const sentence = sentenceOf(`standard(${rate}, at_least: 85%, source: "x")`, cells(groups));
    expect(sentence).toMatch(expected);
    expect(sentence).not.toMatch(/NaN|undefined|null|significan/);
  });
});

describe("what can be judged", () => {
  test.each([
    [
      "attachment_curve(eyes)",
      /^Cannot tell yet: 81 of 263 failed; an estimated 69\.2% were still attached at 12 months \(95% log-log interval/,
    ],
    [
      "definitions(cases, within: 12 months)",
      /^Cannot tell yet: 81 of 263 failed within 12 months; an estimated 69\.2%/,
    ],
  ])("%s", (answer, expected) => {
    expect(sentenceOf(`standard(${answer}, at_least: 70%, source: "x")`)).toMatch(expected);
  });

  test("a course after failure, and a change of acuity", () => {
    const unit = cells([{ failed: 8, attached: 2, acuity_before: 1, acuity_after: 0.2 }]);
    const course = ask('standard(after_failure(cases), at_least: 30%, source: "x")', unit);
    expect(course.sentence).toContain(
      "8 of 8 were attached without oil after a first failure: 100",
    );
    expect(course.lines("ended:decided")).toHaveLength(8);
    const acuity = ask('standard(acuity_change(eyes), at_least: 50%, source: "x")', unit);
    expect(acuity.sentence).toMatch(
      /^Met: 10 of 10 gained 0\.3 logMAR \(15 letters\) or more: 100/,
    );
  });

  test.each([
    ["case_flow(eyes)", "case_flow holds no share"],
    ["failure_causes(eyes)", "failure_causes holds no share"],
  ])("%s is refused by name", (answer, message) => {
    const working = `standard(${answer}, at_least: 85%, source: "x")`;
    expect(() => ask(working, published)).toThrow(message);
  });

  test.each([
    [`standard(${rate}, source: "x")`, "either at_least or at_most"],
    [`standard(${rate}, at_least: 85%, at_most: 10%, source: "x")`, "either at_least or at_most"],
    [`standard(${rate}, at_least: 85, source: "x")`, "between 0% and 100%"],
    [`standard(${rate}, at_least: 85%, source: " ")`, "needs its source"],
    [`standard(${rate}, at_least: 85%)`, "source"],
  ])("%s is refused", (working, message) => {
    expect(() => ask(working, published)).toThrow(message);
  });
});

describe("groups", () => {
  const unit = cells([
    { failed: 1, attached: 99, technique: "vitrectomy", surgeon: "A" },
    { failed: 60, attached: 40, technique: "scleral buckle", surgeon: "B" },
    { failed: 2, attached: 8, technique: "pneumatic retinopexy", surgeon: "C" },
  ]);

  test("each has its verdict; the answer's cautions go with it", () => {
    const { rows, sentence, cautions, figures } = ask(
      'standard(failure_rate(eyes, by: technique), at_most: 15%, source: "x", re_audit: 2027-03-31)',
      unit,
    );
    expect(rows.map((row) => [row[0], row[5]])).toEqual([
      ["pneumatic retinopexy", "cannot tell yet"],
      ["scleral buckle", "not met"],
      ["vitrectomy", "met"],
      ["all eyes", "not met"],
    ]);
    expect(sentence).toContain(
      "Of 3 groups: met by vitrectomy; not met for scleral buckle; cannot tell yet for " +
        "pneumatic retinopexy.",
    );
    expect(cautions).toEqual(
      expect.arrayContaining([
        "small-numbers",
        "techniques-chosen",
        "several-verdicts",
        "cycle-open",
      ]),
    );
    expect(figures.groups).toHaveLength(3);
  });

  test("people are counted in the sentence, never named", () => {
    const { sentence, cautions } = ask(
      'standard(failure_rate(eyes, by: surgeon), at_most: 15%, source: "x")',
      unit,
    );
    expect(sentence).toContain("Of 3 groups: met by 1; not met for 1; cannot tell yet for 1.");
    expect(cautions).toContain("comparing-people");
  });

  test("every count opens the eyes of the answer, and the chart says what the table says", () => {
    const { answer, lines, rows } = ask(
      'standard(failure_rate(eyes, by: technique), at_least: 85%, source: "x")',
      unit,
    );
    for (const row of answer.table.rows) {
      expect(lines(row[1]?.pick)).toHaveLength(Number(row[1]?.value));
      expect(lines(row[2]?.pick)).toHaveLength(Number(row[2]?.value));
    }
    if (answer.chart === undefined) throw new Error("no chart");
    const { description, spec } = layChart(answer.chart, { width: 780 });
    expect(description).toContain("60 of 100 failed, 40.0% free of failure");
    for (const row of rows) expect(JSON.stringify(spec)).toContain(row[3]);
  });
});
