import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { casesOf, primary } from "../outcomes/cases-of.ts";
import { ask, casesValue, workedOut } from "./ask.ts";
import { eyesOf, groupsOfEyes, type Row } from "./groups-of-eyes.ts";

/** A small worked example of competing causes; the numbers by R's survival, etm and cmprsk. */
const small = (() => {
  const [, ...lines] = readFileSync("tests/references/data/competing_small.csv", "utf8")
    .trim()
    .split("\n");
  const rows = lines.map((line) => {
    const [months = "", ended = "", arm = ""] = line.split(",");
    return { months: `${months}`, ended, arm };
  });
  const numeric = casesOf(rows);
  const table = numeric.cases;
  const columns = table.columns.map((column) =>
    column.name === "months"
      ? { ...column, kind: "number" as const, values: column.values.map(Number) }
      : column,
  );
  const cases = casesValue({ ...numeric, cases: { ...table, columns } });
  return {
    eyes: workedOut('eyes_from(cases, time: months, event: ended != "0", unit: "months")', {
      cases,
    }),
  };
})();

interface CauseFigures {
  readonly cause: string;
  readonly eyes: number;
  readonly gray_p: number | null;
  readonly landmarks: readonly { readonly incidence: number; readonly standard_error: number }[];
}
const landmarks = "landmarks: [2 months, 6 months, 9 months]";

function causesOf(working: string, cells = small): readonly CauseFigures[] {
  return ask(working, cells).figures.causes as unknown as readonly CauseFigures[];
}

describe("failure_incidence on a worked example", () => {
  const causes = causesOf(`failure_incidence(eyes, cause: ended, ${landmarks})`);
  const one = causes.find(({ cause }) => cause === "1");
  const two = causes.find(({ cause }) => cause === "2");

  test("Aalen–Johansen incidences and delta-method errors", () => {
    const first = [0.1666666667, 0.3541666667, 0.4713541667];
    const firstErrors = [0.1075828707, 0.1432686183, 0.1571920746];
    const second = [0.0833333333, 0.1770833333, 0.2942708333];
    one?.landmarks.forEach(({ incidence, standard_error }, i) => {
      expect(incidence).toBeCloseTo(first[i] ?? Number.NaN, 9);
      expect(standard_error).toBeCloseTo(firstErrors[i] ?? Number.NaN, 9);
      expect(two?.landmarks[i]?.incidence).toBeCloseTo(second[i] ?? Number.NaN, 9);
    });
    expect(one).toMatchObject({ eyes: 5 });
  });

  test("incidences and the share with no event add up to 1 at every landmark", () => {
    for (const at of [0, 1, 2]) {
      const sum = causes.reduce((total, each) => total + (each.landmarks[at]?.incidence ?? 0), 0);
      expect(sum).toBeCloseTo(1, 12);
    }
  });

  test("Gray's variance on request, and by name", () => {
    const working = `failure_incidence(eyes, cause: ended, variance: "Gray", ${landmarks})`;
    const gray = causesOf(working).find(({ cause }) => cause === "1");
    expect((gray?.landmarks[0]?.standard_error ?? 0) ** 2).toBeCloseTo(0.012683654729, 11);
    expect((gray?.landmarks[2]?.standard_error ?? 0) ** 2).toBeCloseTo(0.031389535522, 11);
    expect(ask(working, small).sentence).toContain("95% log-log intervals, Gray's variance");
  });

  test("Gray's test between groups, cause by cause", () => {
    const split = causesOf(`failure_incidence(eyes, by: arm, cause: ended, ${landmarks})`);
    expect(split.find(({ cause }) => cause === "1")?.gray_p).toBeCloseTo(0.1048863, 6);
    expect(split.find(({ cause }) => cause === "2")?.gray_p).toBeCloseTo(0.3299167, 6);
    const of = ask(`failure_incidence(eyes, by: arm, cause: ended, of: "2", ${landmarks})`, small);
    expect(of.figures.gray_chi_square).toBeCloseTo(0.9492249658, 8);
    expect(of.sentence).toContain(
      "Gray's test of equal incidence of 2: chi-square 0.95 on 1 degree of freedom, p = 0.33.",
    );
  });
});

describe("failure_incidence on eyes", () => {
  const failed = (day: number, cause: readonly string[] | null, more: Row = {}): Row => ({
    last_seen_date: 1400,
    redetachment_date: 1000 + day,
    failure_cause: cause,
    ...more,
  });
  const rows = [
    failed(20, ["new or missed break"]),
    failed(40, ["PVR"]),
    failed(60, ["PVR", "new or missed break"]),
    failed(80, null),
    { last_seen_date: 1100, death_date: 1100 },
    { last_seen_date: 1900, death_date: 1900 },
    ...Array.from({ length: 6 }, () => ({ last_seen_date: 1400 })),
  ].map((row, i) =>
    primary({
      patient: `P${i}`,
      status_last_seen: "attached",
      technique: i % 2 === 0 ? "vitrectomy" : "scleral buckle",
      ...row,
    }),
  );
  const cells = { eyes: eyesOf(rows) };
  const { answer, sentence, rows: table, cautions, lines } = ask("failure_incidence(eyes)", cells);

  test("one row a cause, death, and the eyes that none of them ended", () => {
    expect(table.map((row) => row.slice(0, 2))).toEqual([
      ["PVR", "1"],
      ["PVR and new or missed break", "1"],
      ["new or missed break", "1"],
      ["cause not recorded", "1"],
      ["death", "1"],
      ["none of these", "7"],
    ]);
    expect(cautions).toEqual(["small-numbers", "cause-not-recorded", "several-causes"]);
  });

  test("every count, step and number at risk leads to its eyes", () => {
    expect(lines(answer.table.rows[0]?.[1]?.pick)).toEqual([[3]]);
    expect(lines(answer.table.rows[4]?.[1]?.pick)).toEqual([[6]]);
    expect(lines(answer.table.rows[5]?.[1]?.pick)).toHaveLength(7);
    if (answer.chart?.draw !== "incidence") throw new Error("no incidence is drawn");
    const { incidence } = answer.chart;
    expect(lines(incidence.curves[0]?.steps[0]?.pick)).toEqual([[3]]);
    expect(incidence.atRisk[0]).toEqual([12, 8, 7, 7, 7]);
    expect(lines(incidence.atRiskPicks?.[0]?.[1])).toHaveLength(8);
  });

  test("the death of an eye followed to the window comes after it", () => {
    expect(sentence).toContain(
      " Death ended the follow-up of 1 eye without failure and competes with it.",
    );
  });

  test("chart, table and sentence say the same to the displayed digit", () => {
    if (answer.chart?.draw !== "incidence") throw new Error("no incidence is drawn");
    for (const [position, curve] of answer.chart.incidence.curves.entries()) {
      const share = `${(100 * (curve.steps.at(-1)?.incidence ?? 0)).toFixed(1)}%`;
      expect(table[position]?.at(-1)?.startsWith(share)).toBe(true);
      if (curve.label !== "death") expect(sentence).toContain(`${curve.label} ${share}`);
    }
  });

  test("between groups, failure from any cause, with death competing", () => {
    const split = ask("failure_incidence(eyes, by: technique)", cells);
    expect(split.rows.map((row) => row.slice(0, 3))).toEqual([
      ["failure", "scleral buckle", "2"],
      ["failure", "vitrectomy", "2"],
      ["death", "scleral buckle", "0"],
      ["death", "vitrectomy", "1"],
      ["none of these", "scleral buckle", "4"],
      ["none of these", "vitrectomy", "3"],
    ]);
    expect(split.sentence).toMatch(
      /^At 12 months the cumulative incidence of failure \(redetachment\) by technique is: scleral buckle 33\.3% \(.*\), 2 of 6 eyes; vitrectomy .*Gray's test of equal incidence: chi-square/,
    );
    expect(split.cautions).toContain("techniques-chosen");
  });

  test("one cause against the others, and a cause that is not there", () => {
    const pvr = ask('failure_incidence(eyes, of: "PVR")', cells);
    expect(pvr.rows.map((row) => row.slice(0, 2))).toEqual([
      ["PVR", "2"],
      ["other causes", "2"],
      ["death", "1"],
      ["none of these", "7"],
    ]);
    expect(() => ask('failure_incidence(eyes, of: "PVT")', cells)).toThrow('write "PVR"');
  });

  test("without death or censoring it is the plain share", () => {
    const plain = ask("failure_incidence(eyes, by: technique)", {
      eyes: groupsOfEyes([{ technique: "vitrectomy", failed: 3, attached: 17 }]),
    });
    expect(plain.rows[0]?.at(-2)).toMatch(/^15\.0% \(/);
  });
});

describe("the sentence of failure_incidence over a grid of answers", () => {
  test.each<[string, readonly Row[], RegExp]>([
    ["none", [], /^No eyes to follow\.$/],
    ["one, not failed", [{ last_seen_date: 1400 }], /^No failure is recorded among 1 eye\.$/],
    [
      "one, dead",
      [{ last_seen_date: 1050, death_date: 1050 }],
      /^No failure is recorded among 1 eye\. Death ended the follow-up of 1 eye/,
    ],
    ["one, failed", [{ never_attached: true }], /cause not recorded 100\.0% \(.*\), 1 eye \(Aalen/],
    [
      "lost before any landmark",
      [{ redetachment_date: 1010 }, { last_seen_date: 1011 }],
      /^Of 2 eyes followed, 1 failed: cause not recorded 1; no landmark is reached by the curves\.$/,
    ],
  ])("%s", (_, ends, expected) => {
    const rows = ends.map((end, i) =>
      primary({ patient: `P${i}`, status_last_seen: "attached", ...end }),
    );
    const { sentence, answer } = ask("failure_incidence(eyes)", { eyes: eyesOf(rows) });
    expect(sentence).toMatch(expected);
    expect(JSON.stringify(answer)).not.toMatch(/NaN|undefined/);
  });
});
