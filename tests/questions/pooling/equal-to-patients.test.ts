import { describe, expect, test } from "vitest";
import { layChart } from "../../../src/charts/chart-request.ts";
import { aalenJohansen } from "../../../src/statistics/aalen-johansen.ts";
import { proportionFunnelLimits } from "../../../src/statistics/funnel-limits.ts";
import { incidenceAt } from "../../../src/statistics/incidence-at.ts";
import { kaplanMeier } from "../../../src/statistics/kaplan-meier.ts";
import { survivalAt } from "../../../src/statistics/survival-at.ts";
import {
  aggregatesOf,
  asked,
  days,
  type InventedEye,
  inventedEyes,
} from "./fictional-departments.ts";

/** Few days and many eyes: on every day as many fail, are lost or die as may be told. */
const grid = [20, 60, 150, 300];
const departments = [
  inventedEyes(1, { eyes: 900, grid, risk: 0.3 }),
  inventedEyes(2, { eyes: 700, grid, risk: 0.35 }),
  inventedEyes(3, { eyes: 800, grid, risk: 0.3 }),
];
const files = departments.map((eyes, at) => aggregatesOf(`D${at + 1}`, eyes));
const everyone = departments.flat();

describe("where nothing is withheld, the answer over departments is that of their patients", () => {
  test("nothing is withheld here", () => {
    expect(JSON.stringify(files)).not.toContain("withheld");
    for (const { groups } of files) {
      const { times } = groups[0] ?? {};
      expect(times?.bands.map(({ from, to }) => [from, to])).toEqual(grid.map((day) => [day, day]));
      expect(times?.deaths).toBe("apart");
      expect(groups[0]?.causes?.bands.every(({ from, to }) => from === to)).toBe(true);
    }
  });

  test("rates and intervals, by technique and of all", () => {
    const { figures } = asked('pooled_rate(departments, by: "technique")', { files });
    const patients = asked("failure_rate(eyes, by: technique)", { eyes: everyone }).figures;
    expect(figures.rate).toBe(patients.rate);
    expect([figures.lower, figures.upper]).toEqual([patients.lower, patients.upper]);
    expect(figures.groups.map((each: { rate: number }) => each.rate)).toEqual(
      patients.groups.map((each: { rate: number }) => each.rate),
    );
  });

  test("what a rate leads with: the curve at the window's end, as the patients' answer does", () => {
    const { figures, answer, sentence, cautions } = asked(
      'pooled_rate(departments, by: "technique")',
      { files },
    );
    const patients = asked("failure_rate(eyes, by: technique)", { eyes: everyone }).figures;
    const curve = asked("pooled_curve(departments)", { files }).figures[`day_${days}`];
    expect(figures.headline_rate).toBeCloseTo(patients.headline_rate, 12);
    expect(figures.headline_rate).toBe(curve.failed);
    expect([figures.headline_lower, figures.headline_upper]).toEqual([curve.lower, curve.upper]);
    expect(figures.rate).toBeGreaterThan(figures.headline_rate);
    expect(figures.if_none_failed).toBeCloseTo(patients.lowest, 12);
    expect(figures.if_all_failed).toBeCloseTo(patients.highest, 12);
    // By technique departments tell the times in bands, so that bounds stand there.
    figures.groups.forEach((group: Record<string, number>, at: number) => {
      const rate = patients.groups[at].headline_rate;
      expect(group.curve_lowest).toBeLessThanOrEqual(rate + 1e-12);
      expect(group.curve_highest).toBeGreaterThanOrEqual(rate - 1e-12);
    });
    const percent = (share: number) => `${(100 * share).toFixed(1)}%`;
    const all = answer.table.rows.at(-1)?.map(({ text }) => text) ?? [];
    expect(all[3]).toMatch(new RegExp(`^${percent(figures.headline_rate)} \\(`));
    expect(all[5]).toMatch(new RegExp(`^${percent(figures.rate)} \\(`));
    expect(sentence).toContain(
      `: by the curve ${percent(figures.headline_rate)} (95% Kaplan–Meier log-log interval `,
    );
    expect(sentence).toContain(`eyes, of which ${percent(figures.rate)} failed, 95% `);
    const [buckle, vitrectomy] = figures.groups;
    const share = (group: Record<string, number>) =>
      `${(100 * Number(group.curve_lowest)).toFixed(1)} to ${percent(Number(group.curve_highest))}`;
    expect(sentence).toContain(` By technique: scleral buckle ${share(buckle)} (95% interval `);
    expect(sentence).toContain(`) and vitrectomy ${share(vitrectomy)} (95% interval `);
    expect(cautions).toContain("paired-eyes");
    if (answer.chart?.draw !== "intervals") throw new Error("no rates are drawn");
    const middle = (group: Record<string, number>) =>
      (Number(group.curve_lowest) + Number(group.curve_highest)) / 2;
    expect(answer.chart.intervals.rows.map(({ rate }) => rate)).toEqual([
      middle(buckle),
      middle(vitrectomy),
      figures.headline_rate,
    ]);
  });

  test("where every outcome is known, it leads with the plain share", () => {
    const known = departments.map((eyes, at) =>
      aggregatesOf(
        `D${at}`,
        eyes.filter(({ failed, time }) => failed || time >= days),
      ),
    );
    const { figures, sentence } = asked("pooled_rate(departments)", { files: known });
    expect(figures.headline_rate).toBe(figures.rate);
    expect(sentence).not.toMatch(/by the curve|is known for/);
  });

  test("the curve and its limits on every landmark", () => {
    const { figures, cautions } = asked("pooled_curve(departments)", { files });
    const curve = kaplanMeier({
      time: everyone.map(({ time }) => time),
      event: everyone.map(({ failed }) => failed),
    });
    for (const day of [30, 91, 183, days]) {
      const at = survivalAt(curve, day);
      const pooled = figures[`day_${day}`];
      expect(pooled.failed).toBeCloseTo(1 - (at?.estimate ?? 0), 12);
      expect(pooled.lower).toBeCloseTo(1 - (at?.upper ?? 0), 12);
      expect(pooled.upper).toBeCloseTo(1 - (at?.lower ?? 0), 12);
    }
    expect(cautions).not.toContain("counts-withheld");
  });

  test("the incidence of each cause, deaths competing", () => {
    const { figures } = asked("pooled_incidence(departments)", { files });
    for (const { cause, at } of figures.causes) {
      const patients = incidenceOf(everyone, (eye) => cause === "any cause" || eye.cause === cause);
      for (const { day, lowest, highest, lower, upper } of at) {
        const there = incidenceAt(patients, 1, day);
        expect(lowest).toBeCloseTo(there?.estimate ?? -1, 12);
        expect(highest).toBeCloseTo(there?.estimate ?? -1, 12);
        expect(lower).toBeCloseTo(there?.lower ?? -1, 10);
        expect(upper).toBeCloseTo(there?.upper ?? -1, 10);
      }
    }
    expect(figures.causes).toHaveLength(3);
  });

  test("Mantel–Haenszel over departments and Breslow–Day", () => {
    const { figures } = asked(
      'pooled_difference(departments, by: "technique", first: "vitrectomy", second: "scleral buckle")',
      { files },
    );
    const known = departments.map((eyes) =>
      eyes.filter(({ failed, time }) => failed || time >= days),
    );
    const strata = known.map((eyes) => cellsOf(eyes));
    // The textbook formula, by hand: OR = sum(ad/n) / sum(bc/n).
    const sum = (of: (cells: ReturnType<typeof cellsOf>) => number) =>
      strata.reduce((total, cells) => total + of(cells), 0);
    const odds = sum(({ a, d, n }) => (a * d) / n) / sum(({ b, c, n }) => (b * c) / n);
    const [, , oddsRatio] = figures.measures;
    expect(oddsRatio.lowest).toBeCloseTo(odds, 12);
    expect(oddsRatio.highest).toBeCloseTo(odds, 12);
    expect(figures.departments).toBe(3);
    expect(figures.p).toBeLessThan(0.05);
    expect(figures.homogeneity_p).toBeGreaterThan(0);
    expect(figures.homogeneity_p).toBeLessThanOrEqual(1);
  });

  test("the funnel: failures of known in each department, judged by the exact test", () => {
    const { figures, cautions } = asked('pooled_funnel(departments, names: "shown")', { files });
    const known = departments.map((eyes) =>
      eyes.filter(({ failed, time }) => failed || time >= days),
    );
    expect(
      figures.departments.map(({ failed, total }: { failed: number; total: number }) => [
        failed,
        total,
      ]),
    ).toEqual(known.map((eyes) => [eyes.filter(({ failed }) => failed).length, eyes.length]));
    expect(cautions).toEqual(expect.arrayContaining(["departments-differ", "no-case-mix"]));
  });

  test("the funnel's limits: exact as that of the patients, or widened by what departments differ", () => {
    const exact = asked('pooled_funnel(departments, names: "shown")', { files }).figures;
    const of = asked('pooled_funnel(departments, names: "shown", limits: "widened")', { files });
    const { target, tau_squared, departments: widened } = of.figures;
    expect(tau_squared).toBeGreaterThanOrEqual(0);
    widened.forEach(({ total, upper_998 }: { total: number; upper_998: number }, at: number) => {
      // Spiegelhalter 2005: the target and 3.090232 errors, the variance between departments added.
      const error = Math.sqrt((target * (1 - target)) / total + tau_squared);
      expect(upper_998).toBeCloseTo(target + 3.0902323 * error, 6);
      const limits = proportionFunnelLimits(target, total, 0.998);
      expect(exact.departments[at].upper_998).toBeCloseTo(limits?.upper ?? 0, 12);
    });
    expect(of.sentence).toContain("; limits widened for over-dispersion), of 3 departments");
  });

  test("the difference draws the odds ratio of each department, numbered, and the common one", () => {
    const working =
      'pooled_difference(departments, by: "technique", first: "vitrectomy", second: "scleral buckle")';
    const { answer, figures, sentence } = asked(working, { files });
    // Ratios and differences read as in every other answer: two decimals, and percentage points.
    expect(sentence).toMatch(/odds ratio \d\.\d\d \(95% interval \d\.\d\d to \d\.\d\d\);/);
    expect(answer.table.rows[0]?.[3]?.text).toMatch(
      /^−?\d+\.\d points \(95% interval −?\d+\.\d to /,
    );
    if (answer.chart?.draw !== "effects") throw new Error("no ratios are drawn");
    const { rows } = answer.chart.effects;
    const known = departments.map((eyes) =>
      cellsOf(eyes.filter(({ failed, time }) => failed || time >= days)),
    );
    const bySize = [...known].sort((one, other) => other.n - one.n);
    expect(rows.map(({ label }) => label)).toEqual([
      ...bySize.map((_, at) => `department no. ${at + 1}`),
      "over departments",
    ]);
    bySize.forEach(({ a, b, c, d }, at) => {
      expect(rows[at]?.estimate).toBeCloseTo((a * d) / (b * c), 10);
      expect(rows[at]?.count).toBe(`${a} of ${a + b} | ${c} of ${c + d}`);
    });
    expect(rows.at(-1)?.estimate).toBe(figures.measures[2].lowest);
    expect(rows.at(-1)?.isSummary).toBe(true);
    const named = asked(working.replace(")", ', names: "shown")'), { files }).answer.chart;
    expect(JSON.stringify(named)).toContain('"D2"');
    expect(JSON.stringify(answer.chart)).not.toMatch(/"D\d"/);
  });
});

describe.each([
  "pooled_rate(departments)",
  'pooled_rate(departments, by: "technique")',
  "pooled_curve(departments)",
  'pooled_curve(departments, by: "technique")',
  "pooled_incidence(departments)",
  "pooled_funnel(departments)",
  'pooled_difference(departments, by: "technique", first: "vitrectomy", second: "scleral buckle")',
])("%s", (working) => {
  const sparse = [4, 5].map((seed) =>
    aggregatesOf(`D${seed}`, inventedEyes(seed, { eyes: 60, grid: [3, 40, 100, 200], risk: 0.2 })),
  );

  test.each([
    ["with all counts", files],
    ["with counts withheld", sparse],
    ["of one department", files.slice(0, 1)],
  ])("reads well and draws, %s", (_, of) => {
    const { answer, sentence, cautions } = asked(working, { files: of });
    expect(sentence).toMatch(/^[A-Z].*\.$/);
    expect(`${sentence}${JSON.stringify(answer)}`).not.toMatch(/NaN|undefined|Infinity| {2}/);
    expect(cautions).toContain("departments-differ");
    for (const width of [780, 390]) {
      if (answer.chart === undefined) continue;
      expect(layChart(answer.chart, { width }).description).not.toMatch(/NaN|undefined/);
    }
  });
});

function incidenceOf(eyes: readonly InventedEye[], isOfCause: (eye: InventedEye) => boolean) {
  return aalenJohansen({
    time: eyes.map(({ time }) => time),
    cause: eyes.map((eye) => (eye.failed ? (isOfCause(eye) ? 1 : 2) : eye.died ? 2 : 0)),
    causes: 2,
  });
}

function cellsOf(eyes: readonly InventedEye[]) {
  const having = (technique: string, failed: boolean) =>
    eyes.filter((eye) => eye.technique === technique && eye.failed === failed).length;
  const [a, b] = [having("vitrectomy", true), having("vitrectomy", false)];
  const [c, d] = [having("scleral buckle", true), having("scleral buckle", false)];
  return { a, b, c, d, n: a + b + c + d };
}
