import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { ask } from "../ask.ts";
import { groupsOfEyes } from "../groups-of-eyes.ts";

type Figures = Readonly<Record<string, number>>;

function groupsOf(figures: Readonly<Record<string, unknown>>): readonly Figures[] {
  return figures.groups as readonly Figures[];
}

const attachedIn = (surgeon: string, eyes: number) => ({ surgeon, failed: 0, attached: eyes });

describe("funnel limits of a share, by the rule of Spiegelhalter's appendix worked in R", () => {
  // The rate to stand around, eyes, then the limits at 0.1, 2.5, 97.5 and 99.9%; below 0 there is none.
  const expected = [
    [10, 20, -0.04958874, -0.03971842, 0.22846761, 0.33517182],
    [10, 50, -0.01611935, 0.01386293, 0.17972273, 0.24012842],
    [10, 100, 0.01417887, 0.0403806, 0.15771861, 0.19835672],
    [10, 500, 0.05998869, 0.07344753, 0.1260149, 0.14268931],
    [13, 20, -0.04918981, -0.02974534, 0.27248485, 0.38597123],
    [13, 50, 0.00015234, 0.03312639, 0.21944632, 0.28648276],
    [13, 100, 0.03230757, 0.06241427, 0.19469551, 0.23867125],
    [15, 100, 0.04509686, 0.07838301, 0.2183322, 0.26495278],
  ] as const;

  test.each(expected)("around %i%%, %i eyes", (target, eyes, ...limits) => {
    const working = `funnel(eyes, by: surgeon, target: ${target}%, source: "a paper", names: "shown")`;
    const unit = groupsOfEyes([attachedIn("A", eyes), attachedIn("B", eyes)]);
    const { figures, answer } = ask(working, { eyes: unit });
    const [own] = groupsOf(figures);
    const [outerLower, lower, upper, outerUpper] = limits;
    expect(own?.lower_95).toBeCloseTo(Math.max(0, lower), 7);
    expect(own?.upper_95).toBeCloseTo(upper, 7);
    expect(own?.lower_998).toBeCloseTo(Math.max(0, outerLower), 7);
    expect(own?.upper_998).toBeCloseTo(outerUpper, 7);
    if (lower < 0) expect(own?.position_95).toBe("inside");
    if (answer.chart?.draw !== "funnel") throw new Error("no funnel is drawn");
    const drawn = answer.chart.funnel.limits[0]?.points.find(({ size }) => size === eyes);
    if (drawn !== undefined) expect(drawn.upper).toBeCloseTo(upper, 7);
  });
});

describe("funnel limits of observed over expected, likewise with Poisson, worked in R", () => {
  const expected = [
    [5, -0.17031737, 0.10841316, 1.87531172, 2.55427076],
    [10, 0.12205293, 0.37751879, 1.61599507, 2.06620008],
    [20, 0.35845936, 0.56025005, 1.43728843, 1.73567643],
    [50, 0.58245633, 0.72243447, 1.27660983, 1.45502817],
    [100, 0.70065284, 0.80366337, 1.19580895, 1.3180475],
  ] as const;

  test.each(expected)("%i expected", (failures, ...limits) => {
    const working = 'funnel(eyes, by: surgeon, expected: 10%, source: "a paper", names: "shown")';
    const unit = groupsOfEyes([attachedIn("A", 10 * failures), attachedIn("B", 40)]);
    const [own] = groupsOf(ask(working, { eyes: unit }).figures);
    const [outerLower, lower, upper, outerUpper] = limits;
    expect(own?.size).toBeCloseTo(failures, 10);
    expect(own?.lower_95).toBeCloseTo(Math.max(0, lower), 7);
    expect(own?.upper_95).toBeCloseTo(upper, 7);
    expect(own?.lower_998).toBeCloseTo(Math.max(0, outerLower), 7);
    expect(own?.upper_998).toBeCloseTo(outerUpper, 7);
  });
});

describe("exact limits of a count over what was expected, as R's poisson.test gives them", () => {
  const expected = [
    [0, 0, 3.688879],
    [1, 0.025318, 5.571643],
    [2, 0.242209, 7.224688],
    [3, 0.618672, 8.767273],
    [5, 1.623486, 11.668332],
    [15, 8.395386, 24.740219],
    [20, 12.21652, 30.888378],
    [50, 37.110964, 65.918767],
    [100, 81.363991, 121.626794],
  ] as const;

  test.each(expected)("%i observed", (observed, lower, upper) => {
    const working =
      'observed_expected(eyes, by: surgeon, names: "shown", expected: 5%, source: "a paper", limits: "Poisson")';
    const unit = groupsOfEyes([{ surgeon: "A", failed: observed, attached: 400 - observed }]);
    const [own] = groupsOf(ask(working, { eyes: unit }).figures);
    expect(own?.expected).toBeCloseTo(20, 9);
    expect(20 * Number(own?.ratio_lower)).toBeCloseTo(lower, 5);
    expect(20 * Number(own?.ratio_upper)).toBeCloseTo(upper, 5);
  });
});

describe("beta-binomial shrinkage of 71 experiments (Tarone 1982; the data typed from memory)", () => {
  const [, ...lines] = readFileSync("tests/references/data/rat_tumours.csv", "utf8")
    .trim()
    .split("\n");
  const experiments = lines.map((line) => {
    const [experiment = "", tumours, animals] = line.split(",");
    const failed = Number(tumours);
    return { centre: experiment.padStart(2, "0"), failed, attached: Number(animals) - failed };
  });
  const working =
    'observed_expected(eyes, by: centre, names: "shown", expected: 15%, source: "a paper")';
  const { figures } = ask(working, { eyes: groupsOfEyes(experiments) });

  // Fitted by maximum likelihood in R.
  test("alpha and beta", () => {
    expect(figures.beta_binomial_alpha).toBeCloseTo(2.341615, 4);
    expect(figures.beta_binomial_beta).toBeCloseTo(14.114806, 3);
  });

  test("4 of 14 in the last one, drawn towards the others", () => {
    const last = groupsOf(figures).at(-1);
    expect(last?.own_failed).toBe(4);
    expect(last?.shrunken).toBeCloseTo((2.341615 + 4) / (2.341615 + 14.114806 + 14), 6);
  });
});
