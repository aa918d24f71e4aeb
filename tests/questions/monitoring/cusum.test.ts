import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { dayText } from "../../../src/formula/calendar.ts";
import { ask } from "../ask.ts";
import { othersOf, seriesOfEyes } from "./series-of-eyes.ts";

interface Direction {
  readonly limit: number;
  readonly values: readonly number[];
  readonly run_length_in_control: number;
  readonly run_length_changed: number;
  readonly false_signal_within: number;
  readonly noticed_within: number;
  readonly signals: readonly {
    operation: number;
    run_from: number;
    run_failed: number;
    day: string;
  }[];
}

const directionsOf = (figures: Readonly<Record<string, unknown>>) => ({
  worse: figures.worse as Direction,
  better: figures.better as Direction,
});

/** Each eye's published risk in percent, in a column of numbers. */
const withRisks = (risks: readonly number[]) => (i: number) => ({
  clock_hours_detached: 100 * (risks[i] ?? 0),
});

describe("cusum, the ten cases of a published scheme worked in R", () => {
  const cases = readFileSync("tests/references/data/racusum_small.csv", "utf8")
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .map((line) => line.split(",").map(Number));
  const eyes = seriesOfEyes(
    cases.map(([, , y]) => (y === 1 ? 1 : 0)),
    { of: withRisks(cases.map(([, p = 0]) => p)) },
  );
  const { figures, answer } = ask(
    'cusum(eyes, surgeon: "A", expected: clock_hours_detached / 100, source: "a paper", run_length: 5000)',
    { eyes },
  );
  const { worse, better } = directionsOf(figures);

  test("the path for doubled odds", () => {
    const expected = [0, 0.5978370008, 0.3354727363, 0.9516588757, 1.4624844995, 1.3402668668];
    expected.push(1.2914767026, 1.6481516465, 1.5528414667, 2.1062267049);
    worse.values.forEach((value, i) => {
      expect(value).toBeCloseTo(expected[i] ?? Number.NaN, 9);
    });
  });

  test("the path for halved odds", () => {
    const expected = [0.025317808, 0, 0.1625189295, 0, 0, 0.0672087497, 0.0925265577, 0];
    expected.push(0.0512932944, 0);
    better.values.forEach((value, i) => {
      expect(value).toBeCloseTo(expected[i] ?? Number.NaN, 9);
    });
  });

  test("failed eyes are marked and open", () => {
    if (answer.chart?.draw !== "monitoring") throw new Error("no sums are drawn");
    const [panel] = answer.chart.monitoring.panels;
    expect(panel?.dots.map(({ at }) => at)).toEqual([2, 4, 5, 8, 10]);
    expect(panel?.lines[0]?.points.at(-1)?.value).toBeCloseTo(2.1062267049, 9);
  });
});

describe("the odds of a wrong signal and of a missed one", () => {
  // Risks .05, .10, .25 in shares .5, .3, .2, R = 2, h = 3: 890.5 in control, 81.0 with doubled odds.
  const risks = [...new Array(5).fill(0.05), ...new Array(3).fill(0.1), 0.25, 0.25];
  const eyes = seriesOfEyes(new Array(10).fill(0), { of: withRisks(risks) });
  const working = (more: string) =>
    `cusum(eyes, surgeon: "A", expected: clock_hours_detached / 100, source: "a paper", ${more})`;

  test("the limit is found from the run length asked, and the doubling's follows", () => {
    const { worse } = directionsOf(ask(working("run_length: 890.5"), { eyes }).figures);
    expect(worse.limit).toBeCloseTo(3, 2);
    expect(worse.run_length_in_control).toBeGreaterThan(889);
    expect(worse.run_length_in_control).toBeLessThan(892);
    expect(worse.run_length_changed).toBeGreaterThan(80.8);
    expect(worse.run_length_changed).toBeLessThan(81.2);
  });

  // Reynolds and Stoumbos 1999: p0, p1, r1, then H and the operations to a signal in and out of control.
  test.each([
    [10, 0.1943579583, 0.1107552365, 20, 246.734398, 38.901824],
    [10, 0.1943579583, 0.1107552365, 30, 923.107937, 65.200599],
    [5, 0.0977441979, undefined, 40, 433.020284, 74.471313],
  ])("with one risk of %i%% it is the Bernoulli CUSUM, exact on a lattice", (...design) => {
    const [percent, p1, step, height, inControl, changed] = design;
    const p0 = percent / 100;
    const odds = p1 / (1 - p1) / (p0 / (1 - p0));
    const r1 = step ?? Math.log((1 - p0) / (1 - p1));
    const one = seriesOfEyes(new Array(10).fill(0));
    const runLength = Math.floor(inControl);
    const asked = `cusum(eyes, surgeon: "A", expected: ${percent}%, source: "x", odds_ratio: ${odds}, run_length: ${runLength})`;
    const { worse } = directionsOf(ask(asked, { eyes: one }).figures);
    // Sums are whole steps of r1: every limit above H - 1 and up to H of them is the same.
    expect(Math.ceil(worse.limit / r1)).toBe(height);
    expect(Math.abs(worse.run_length_in_control / inControl - 1)).toBeLessThan(0.01);
    expect(Math.abs(worse.run_length_changed / changed - 1)).toBeLessThan(0.02);
  });

  // Steiner 2000, p. 446: logit of the risk is -3.68 + 0.077 by score; the weights worked in R.
  test.each([
    [0, -0.0243046626, 0.6688425179, 0.0123775004, -0.6807696802],
    [50, -0.4333383098, 0.2598088708, 0.3163545203, -0.3767926603],
    [71, -0.6187248141, 0.0744223665, 0.5591051079, -0.1340420727],
  ])("one operation at a score of %i steps by its weight", (score, down, up, better, worse) => {
    const risk = 1 / (1 + Math.exp(3.68 - 0.077 * score));
    const stepsOf = (outcome: 0 | 1) => {
      const eyes = seriesOfEyes([outcome], { of: withRisks([risk]) });
      return directionsOf(ask(working("run_length: 5000"), { eyes }).figures);
    };
    const [attached, failed] = [stepsOf(0), stepsOf(1)];
    expect(failed.worse.values[0]).toBeCloseTo(up, 9);
    expect(attached.worse.values[0]).toBeCloseTo(Math.max(0, down), 9);
    expect(attached.better.values[0]).toBeCloseTo(better, 9);
    expect(failed.better.values[0]).toBeCloseTo(Math.max(0, worse), 9);
  });

  test("a longer run length raises the limit, lowers the false signals and notices later", () => {
    const short = directionsOf(ask(working("run_length: 200"), { eyes }).figures).worse;
    const long = directionsOf(ask(working("run_length: 2000"), { eyes }).figures).worse;
    expect(long.limit).toBeGreaterThan(short.limit);
    expect(long.false_signal_within).toBeLessThan(short.false_signal_within);
    expect(long.run_length_changed).toBeGreaterThan(short.run_length_changed);
    expect(short.noticed_within).toBeGreaterThan(short.false_signal_within);
  });
});

describe("a surgeon who gets worse", () => {
  const others = [...othersOf("B", 10, 90), ...othersOf("C", 10, 90)];
  const outcomes = Array.from({ length: 40 }, (_, i) => (i < 30 ? 0 : 1) as 0 | 1);
  const eyes = seriesOfEyes(outcomes, { others });
  const { figures, sentence, lines, answer, cautions, rows } = ask('cusum(eyes, surgeon: "A")', {
    eyes,
  });
  const { worse } = directionsOf(figures);

  test("signals, dated, with the run of eyes behind it", () => {
    const [signal] = worse.signals;
    // Each failure adds ln 2 - ln 1.1 at 10%: the limit is passed after the same number whatever it is.
    const steps = Math.ceil(worse.limit / (Math.log(2) - Math.log(1.1)));
    expect(signal?.operation).toBe(30 + steps);
    expect(signal?.run_from).toBe(31);
    expect(signal?.day).toBe(dayText(1000 + 7 * (29 + steps)));
    expect(lines(`worse:${29 + steps}`)).toHaveLength(steps);
    expect(sentence).toContain(
      `at operation ${30 + steps} (${signal?.day}), at the end of a run of ${steps} eyes since operation 31 (`,
    );
    expect(rows[0]?.[7]).toBe(`operation ${30 + steps} (${signal?.day})`);
    // The count stands in words, since a figure would run into the limit before it.
    expect(sentence).toMatch(
      /reaches its limit of \d\.\d\d (once|twice|three times|four times): at/,
    );
  });

  test("is expected from the rate of others, and says the odds of both mistakes", () => {
    expect(figures.expected).toBeCloseTo(4, 10);
    expect(sentence).toMatch(
      /Doubled odds: where nothing has changed it signals by chance once in \d+ operations on average, and with a probability of \d+\.\d% within 40 operations \(the uncertainty of what is expected allowed for\); where the odds are so from the first operation on, it signals after \d+ on average/,
    );
    expect(worse.run_length_in_control).toBeGreaterThan(0.97 * 500);
    expect(cautions).toEqual(
      expect.arrayContaining(["comparing-people", "several-looks", "expected-from-others"]),
    );
  });

  test("the uncertainty of what is expected raises the probability of a false signal", () => {
    const published = ask('cusum(eyes, surgeon: "A", expected: 10%, source: "x")', { eyes });
    const { worse: known } = directionsOf(published.figures);
    expect(known.limit).toBeCloseTo(worse.limit, 6);
    expect(worse.false_signal_within).toBeGreaterThan(1.05 * known.false_signal_within);
    expect(worse.false_signal_within).toBeLessThan(2 * known.false_signal_within);
    expect(published.sentence).not.toContain("uncertainty");
  });

  test("a reset begins again at 0, with its reason, and the earlier run is cut there", () => {
    const day = dayText(1000 + 7 * 33);
    const again = ask(
      `cusum(eyes, surgeon: "A", reset: [${day}], because: "gas changed after review")`,
      { eyes },
    );
    const { worse: since } = directionsOf(again.figures);
    expect(since.values[33]).toBeCloseTo(Math.log(2) - Math.log(1.1), 10);
    expect(since.signals[0]?.run_from).toBe(34);
    expect(again.sentence).toContain(
      `The sums begin again at 0 on ${day} (gas changed after review).`,
    );
    expect(again.figures.reset_because).toEqual([{ day, because: "gas changed after review" }]);
    expect(again.cautions).toContain("reset-by-hand");
  });

  test("several resets each have their reason, in order of the day", () => {
    const [first, second] = [dayText(1000 + 7 * 10), dayText(1000 + 7 * 20)];
    const again = ask(
      `cusum(eyes, surgeon: "A", reset: [${second}, ${first}], because: ["gas changed", "new buckle"])`,
      { eyes },
    );
    expect(again.sentence).toContain(
      `The sums begin again at 0 on ${first} (new buckle) and ${second} (gas changed).`,
    );
    if (again.answer.chart?.draw !== "monitoring") throw new Error("no sums are drawn");
    const { breaks } = again.answer.chart.monitoring.panels[0] ?? { breaks: [] };
    expect(breaks.map(({ label }) => label)).toEqual([`reset ${first}`, `reset ${second}`]);
  });

  test("the odds within the operations shown are those of the stretches between resets", () => {
    const published = 'expected: 10%, source: "x"';
    const at = dayText(1000 + 7 * 20);
    const cut = ask(`cusum(eyes, surgeon: "A", ${published}, reset: ${at}, because: "y")`, {
      eyes,
    });
    const half = ask(`cusum(eyes, surgeon: "A", ${published})`, {
      eyes: seriesOfEyes(new Array(20).fill(0)),
    });
    const [both, one] = [cut, half].map(({ figures: of }) => directionsOf(of).worse);
    expect(both?.limit).toBeCloseTo(one?.limit ?? 0, 6);
    expect(both?.false_signal_within).toBeCloseTo(
      1 - (1 - (one?.false_signal_within ?? 0)) ** 2,
      8,
    );
  });

  test("the answer tells nothing of any one other surgeon", () => {
    const said = JSON.stringify([answer.sentence, answer.table, answer.figures, answer.chart]);
    expect(said).not.toMatch(/"[BC]"|\b[BC]\b(?=,|:)/);
  });

  test.each([
    ['cusum(eyes, surgeon: "Q")', 'no eye of these was operated on by "Q"'],
    ['cusum(eyes, surgeon: "A", odds_ratio: 1)', "odds_ratio cannot be 1"],
    ['cusum(eyes, surgeon: "A", run_length: 5)', "run_length cannot be 5"],
    ['cusum(eyes, surgeon: "A", reset: [2025-06-01])', "no reason is given"],
    [
      'cusum(eyes, surgeon: "A", reset: [2025-06-01, 2025-07-01], because: ["gas"])',
      "no reason is given",
    ],
    ['cusum(eyes, surgeon: "A", reset: ["June"], because: "x")', "a reset is a day"],
    [
      'cusum(eyes, surgeon: "A", expected: 0.1%, run_length: 20)',
      "no limit signals once in about 20",
    ],
  ])("%s is refused in words", (working, message) => {
    expect(() => ask(working, { eyes })).toThrow(message);
  });
});

describe("cusum at the edges", () => {
  test("eyes that are not known take no step, and late eyes wait", () => {
    const eyes = seriesOfEyes([0, "?", 1, 0], {
      of: (i) => (i === 3 ? { operation_date: 1380, last_seen_date: 1390 } : {}),
    });
    const { figures, answer } = ask('cusum(eyes, surgeon: "A", expected: 13%, source: "x")', {
      eyes,
    });
    expect([figures.operations, figures.not_known, figures.too_recent]).toEqual([2, 1, 1]);
    expect(answer.leftOut.map(({ count }) => count)).toEqual([1, 1]);
  });

  test("none known at all", () => {
    const eyes = seriesOfEyes(["?"]);
    const { sentence, answer } = ask('cusum(eyes, surgeon: "A", expected: 13%)', { eyes });
    expect(sentence).toBe("A has no operation whose outcome is known.");
    expect(answer.chart).toBeUndefined();
  });

  test("the others are one surgeon only: refused unless a published risk is given", () => {
    const eyes = seriesOfEyes([0, 1, 0], { others: othersOf("B", 5, 20) });
    expect(() => ask('cusum(eyes, surgeon: "A")', { eyes })).toThrow("one other surgeon");
    const { figures } = ask('cusum(eyes, surgeon: "A", expected: 13%, source: "x")', { eyes });
    expect(figures.operations).toBe(3);
  });
});
