import { describe, expect, test } from "vitest";
import { aalenJohansen } from "../../../src/statistics/aalen-johansen.ts";
import { incidenceAt } from "../../../src/statistics/incidence-at.ts";
import { kaplanMeier } from "../../../src/statistics/kaplan-meier.ts";
import { mantelHaenszelOddsRatio } from "../../../src/statistics/mantel-haenszel.ts";
import { survivalAt } from "../../../src/statistics/survival-at.ts";
import {
  aggregatesOf,
  asked,
  days,
  type InventedEye,
  inventedEyes,
} from "./fictional-departments.ts";

/** Any day at all, and departments so small that much is withheld. */
const anyDay = Array.from({ length: days }, (_, day) => day);
const seeds = [11, 12, 13, 14, 15, 16, 17, 18];
const slack = 1e-9;

function departmentsOf(seed: number): InventedEye[][] {
  return [60, 140, 35].map((eyes, at) =>
    inventedEyes(100 * seed + at, { eyes, grid: anyDay, risk: 0.22 }),
  );
}

describe.each(seeds)(
  "where counts are withheld, bounds hold what the patients say (seed %i)",
  (seed) => {
    const departments = departmentsOf(seed);
    const files = departments.map((eyes, at) => aggregatesOf(`D${at}`, eyes));
    const everyone = departments.flat();

    test("something is withheld", () => {
      expect(JSON.stringify(files)).toContain("withheld");
    });

    test("the rate, of all and by technique", () => {
      const { figures } = asked('pooled_rate(departments, by: "technique")', { files });
      for (const { group, lowest, highest } of [{ group: "all", ...figures }, ...figures.groups]) {
        const known = everyone.filter(
          ({ technique, failed, time }) =>
            (group === "all" || technique === group) && (failed || time >= days),
        );
        const rate = known.filter(({ failed }) => failed).length / known.length;
        expect(lowest).toBeLessThanOrEqual(rate + slack);
        expect(highest).toBeGreaterThanOrEqual(rate - slack);
      }
    });

    test("the rate that leads, and what the others could make of it", () => {
      const { figures } = asked('pooled_rate(departments, by: "technique")', { files });
      for (const each of [{ group: "all", ...figures }, ...figures.groups]) {
        const eyes = everyone.filter(
          ({ technique }) => each.group === "all" || technique === each.group,
        );
        const failed = eyes.filter((eye) => eye.failed).length;
        const held = eyes.filter((eye) => !eye.failed && eye.time >= days).length;
        const curve = kaplanMeier({
          time: eyes.map(({ time }) => time),
          event: eyes.map((eye) => eye.failed),
        });
        const share = 1 - (survivalAt(curve, days)?.estimate ?? Number.NaN);
        expect(each.curve_lowest).toBeLessThanOrEqual(share + slack);
        expect(each.curve_highest).toBeGreaterThanOrEqual(share - slack);
        expect(each.if_none_failed).toBeLessThanOrEqual(failed / eyes.length + slack);
        expect(each.if_all_failed).toBeGreaterThanOrEqual(1 - held / eyes.length - slack);
      }
    });

    test("the curve on every landmark, of all and by technique", () => {
      const { figures } = asked('pooled_curve(departments, by: "technique")', { files });
      const all = asked("pooled_curve(departments)", { files }).figures;
      for (const each of [{ group: "all", ...all }, ...figures.groups]) {
        const eyes = everyone.filter(
          ({ technique }) => each.group === "all" || technique === each.group,
        );
        const curve = kaplanMeier({
          time: eyes.map(({ time }) => time),
          event: eyes.map(({ failed }) => failed),
        });
        for (const day of [30, 91, 183, days]) {
          const failed = 1 - (survivalAt(curve, day)?.estimate ?? Number.NaN);
          expect(each[`day_${day}`].lowest).toBeLessThanOrEqual(failed + slack);
          expect(each[`day_${day}`].highest).toBeGreaterThanOrEqual(failed - slack);
        }
      }
    });

    test("the incidence of each cause", () => {
      const { figures } = asked("pooled_incidence(departments)", { files });
      for (const { cause, at } of figures.causes) {
        const isOf = (eye: InventedEye) => cause === "any cause" || eye.cause === cause;
        const curves = aalenJohansen({
          time: everyone.map(({ time }) => time),
          cause: everyone.map((eye) => (eye.failed ? (isOf(eye) ? 1 : 2) : eye.died ? 2 : 0)),
          causes: 2,
        });
        for (const { day, lowest, highest } of at) {
          const there = incidenceAt(curves, 1, day)?.estimate ?? Number.NaN;
          expect(lowest).toBeLessThanOrEqual(there + slack);
          expect(highest).toBeGreaterThanOrEqual(there - slack);
        }
      }
    });

    test("the Mantel–Haenszel odds ratio, of the departments that can be compared", () => {
      const { figures, answer } = asked(
        'pooled_difference(departments, by: "technique", first: "vitrectomy", second: "scleral buckle")',
        { files },
      );
      const left = answer.cautions.find(({ code }) => code === "departments-left-out")?.text ?? "";
      const strata = departments.flatMap((eyes, at) =>
        left.includes(`D${at}`) ? [] : [tableOf(eyes)],
      );
      const odds = mantelHaenszelOddsRatio(strata)?.estimate;
      const [, , { lowest, highest }] = figures.measures;
      if (odds === undefined || lowest === null || highest === null) {
        expect([lowest, highest]).toContain(null);
        return;
      }
      expect(lowest).toBeLessThanOrEqual(odds + slack);
      expect(highest).toBeGreaterThanOrEqual(odds - slack);
    });
  },
);

describe("bounds are worth having", () => {
  test("bands that are told bound the curve within three points at the window's end", () => {
    const eyes = inventedEyes(77, { eyes: 400, grid: anyDay, risk: 0.2 });
    const { figures } = asked("pooled_curve(departments)", { files: [aggregatesOf("D1", eyes)] });
    const { lowest, highest } = figures.day_365;
    expect(highest - lowest).toBeLessThan(0.03);
  });
});

function tableOf(eyes: readonly InventedEye[]) {
  const part = (name: string) => {
    const known = eyes.filter(
      ({ technique, failed, time }) => technique === name && (failed || time >= days),
    );
    return { failed: known.filter(({ failed }) => failed).length, total: known.length };
  };
  return { first: part("vitrectomy"), second: part("scleral buckle") };
}
