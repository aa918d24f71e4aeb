import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clusteredKaplanMeier } from "../../src/statistics/clustered-kaplan-meier.ts";
import { kaplanMeier, type SurvivalCurve } from "../../src/statistics/kaplan-meier.ts";
import { atRiskAt, survivalAt } from "../../src/statistics/survival-at.ts";
import { expectClose } from "./close-to.ts";
import { followUps, sixMercaptopurine } from "./follow-ups.ts";
import { readColumns, readReference } from "./reference-data.ts";

const reference = readReference("survival");
const kinds = {
  plain: "plain",
  log: "log",
  "log-log": "log-log",
  logit: "logit",
  arcsin: "arcsine",
};

describe("Kaplan–Meier", () => {
  it("is the product limit by hand: Freireich 1963, 6-MP arm, at 6, 7 and 10 weeks", () => {
    const curve = kaplanMeier(sixMercaptopurine());
    const at = (t: number) => survivalAt(curve, t)!.estimate;
    expectClose(at(6), 18 / 21);
    expectClose(at(7), (18 / 21) * (16 / 17));
    expectClose(at(10), (18 / 21) * (16 / 17) * (14 / 15));
    expectClose(survivalAt(curve, 6)!.standardError, (18 / 21) * Math.sqrt(3 / (21 * 18)));
    expect(survivalAt(curve, 6)!.atRisk).toBe(21);
  });

  it("agrees with R's survfit on five data sets", () => {
    const freireich = followUps("freireich.csv", "time", "status");
    const retinopathy = followUps("retinopathy.csv", "futime", "status");
    const lung = followUps("lung.csv", "time", "status", "2");
    const aml = readColumns("aml.csv");
    const isMaintained = aml.x!.map((group) => group === "Maintained");
    const maintained = followUps("aml.csv", "time", "status");
    const pick = <T>(values: T[]) => values.filter((_, i) => isMaintained[i]);
    agrees(kaplanMeier(freireich), reference.pooled);
    agrees(kaplanMeier(retinopathy), reference.retinopathy);
    agrees(kaplanMeier(lung), reference.lung);
    agrees(
      kaplanMeier({ time: pick(maintained.time), event: pick(maintained.event) }),
      reference.maintained,
    );
  });

  it("agrees with R for each kind of limits", () => {
    for (const [theirs, ours] of Object.entries(kinds)) {
      const curve = kaplanMeier({ ...sixMercaptopurine(), limits: ours as "plain" });
      agrees(curve, reference.sixMp[theirs]);
    }
  });

  it("agrees with R under delayed entry, and with weights as replicated rows", () => {
    const { lungLate, lungDelayed, lungDelayedWeighted } = reference;
    const column = (name: string) => lungLate.map((row: Record<string, number>) => row[name]!);
    const late = { time: column("time"), event: column("event"), entry: column("entry") };
    agrees(kaplanMeier(late), lungDelayed);
    const weighted = kaplanMeier({ ...late, weight: column("weight") });
    expectClose(weighted.survival, lungDelayedWeighted.survival);
    expectClose(weighted.standardError, lungDelayedWeighted.standardError);
    expectClose(weighted.atRisk, lungDelayedWeighted.atRisk);
  });
});

describe("the edges of the curve", () => {
  it("without rows is empty, and nothing can be read from it", () => {
    const curve = kaplanMeier({ time: [], event: [] });
    expect(curve.time).toHaveLength(0);
    expect(survivalAt(curve, 0)).toBeNull();
    expect(atRiskAt(curve, [0, 5])).toEqual([0, 0]);
  });

  it("falls at 0 for an event on day 0", () => {
    const curve = kaplanMeier({ time: [0, 0, 5, 9], event: [1, 1, 0, 1] });
    expect(Array.from(curve.survival)).toEqual([0.5, 0.5, 0]);
    expect(survivalAt(curve, 0)!.estimate).toBe(0.5);
  });

  it("counts a row censored on a day as at risk for an event of that day", () => {
    const curve = kaplanMeier({ time: [3, 3], event: [0, 1] });
    expect(Array.from(curve.survival)).toEqual([0.5]);
  });

  it("with none failed stays at 1 with the exact limits of those still at risk", () => {
    const curve = kaplanMeier({ time: [10, 20, 30, 30], event: [0, 0, 0, 0] });
    expect(Array.from(curve.survival)).toEqual([1, 1, 1]);
    expect(Array.from(curve.standardError)).toEqual([0, 0, 0]);
    expectClose(curve.lower, [0.025 ** (1 / 4), 0.025 ** (1 / 3), 0.025 ** (1 / 2)]);
    expect(Array.from(curve.upper)).toEqual([1, 1, 1]);
    expectClose(survivalAt(curve, 5)!.lower, 0.025 ** (1 / 4));
  });

  it("with all failed ends at 0 with the upper limit before; at one time with the exact one", () => {
    const curve = kaplanMeier({ time: [1, 2, 2], event: [1, 1, 1] });
    expectClose(curve.survival, [2 / 3, 0]);
    expect(curve.standardError[1]).toBeNaN();
    expect(curve.lower[1]).toBe(0);
    expect(curve.upper[1]).toBe(curve.upper[0]);
    const tied = kaplanMeier({ time: [2, 2, 2], event: [1, 1, 1] });
    expectClose(tied.upper, [1 - 0.025 ** (1 / 3)]);
    expect(survivalAt(tied, 100)!.estimate).toBe(0);
    // who enters after all have failed brings nobody back
    const late = { time: [0.3, 7.3], event: [1, 1], entry: [0, 2.2] };
    expectClose(kaplanMeier(late).upper, [0.975, 0.975]);
    expectClose(clusteredKaplanMeier({ ...late, cluster: [0, 1] }).upper, [0.975, 0.975]);
  });

  it("is unknown after the last time unless it has reached 0", () => {
    const curve = kaplanMeier({ time: [5, 7], event: [1, 0] });
    expect(survivalAt(curve, 7)!.estimate).toBe(0.5);
    expect(survivalAt(curve, 7.5)).toBeNull();
    expect(atRiskAt(curve, [0, 5, 6, 7, 8])).toEqual([2, 2, 1, 1, 0]);
  });

  it("refuses by name what is missing or cannot be", () => {
    const refused = (time: number[], event: unknown[], more = {}) =>
      expect(() => kaplanMeier({ time, event: event as number[], ...more }));
    refused([1, Number.NaN], [1, 1]).toThrow(
      "time[1] is NaN; expected a finite number of 0 or more",
    );
    refused([1, -2], [1, 1]).toThrow("time[1] is -2");
    refused([1, 2], [1]).toThrow("event has 1 values, time has 2");
    refused([1, 2], [1, 2]).toThrow("event[1] is 2; expected 1, 0, true or false");
    refused([1, 2], [1, null]).toThrow(TypeError);
    refused([1, 2], [1, 0], { entry: [0, 2] }).toThrow("entry[1] is 2; expected a time before 2");
    refused([1, 2], [1, 0], { weight: [1, 0] }).toThrow("weight[1] is 0");
    refused([1, 2], [1, 0], { level: 95 }).toThrow("level is 95");
    refused([1, 2], [1, 0], { limits: "cloglog" }).toThrow(
      "limits is cloglog; expected plain, log",
    );
  });
});

describe("laws of the curve", () => {
  const rows = fc.array(fc.record({ time: fc.nat(40), event: fc.boolean() }), {
    minLength: 1,
    maxLength: 60,
  });
  const of = (list: readonly { time: number; event: boolean }[]) => ({
    time: list.map((row) => row.time),
    event: list.map((row) => row.event),
  });
  const check = (law: (list: { time: number; event: boolean }[]) => void) =>
    fc.assert(fc.property(rows, law), { seed: 21, numRuns: 150 });

  it("without censoring it is the plain proportion, with the binomial standard error", () => {
    check((list) => {
      const curve = kaplanMeier({ ...of(list), event: list.map(() => 1) });
      curve.time.forEach((t, j) => {
        const share = list.filter((row) => row.time > t).length / list.length;
        expectClose(curve.survival[j]!, share);
        const error = Math.sqrt((share * (1 - share)) / list.length);
        if (share > 0) expectClose(curve.standardError[j]!, error);
      });
    });
  });

  it("does not depend on the order of rows", () => {
    check((list) => {
      const sorted = [...list].sort((a, b) => a.time - b.time);
      same(kaplanMeier(of(list)), kaplanMeier(of(sorted)));
    });
  });

  it("a weight of 2 is the row twice, and entry at 0 is no delay", () => {
    check((list) => {
      const twice = kaplanMeier(of([...list, ...list]));
      same(kaplanMeier({ ...of(list), weight: list.map(() => 2) }), twice);
      same(kaplanMeier({ ...of(list), entry: list.map(() => 0) }), kaplanMeier(of(list)));
    });
  });

  it("does not depend on the unit of time, though days / 7.3 are no exact numbers", () => {
    check((list) => {
      const days = kaplanMeier(of(list));
      const units = kaplanMeier({ ...of(list), time: list.map((row) => row.time / 7.3) });
      expectClose(units.survival, days.survival);
      expectClose(units.lower, days.lower);
      expectClose(
        units.time,
        days.time.map((t) => t / 7.3),
      );
    });
  });

  it("0.1 + 0.2 and 0.3 are one time", () => {
    const curve = kaplanMeier({ time: [0.1 + 0.2, 0.3, 0.5], event: [1, 1, 0] });
    expect(Array.from(curve.events)).toEqual([2, 0]);
  });

  it("splitting a row into two spells leaves the curve as it was", () => {
    check((list) => {
      const late = list.filter((row) => row.time > 10);
      const spells = {
        time: [...list.map((row) => Math.min(row.time, 10)), ...late.map((row) => row.time)],
        event: [
          ...list.map((row) => (row.time > 10 ? false : row.event)),
          ...late.map((row) => row.event),
        ],
        entry: [...list.map(() => 0), ...late.map(() => 10)],
      };
      const split = kaplanMeier(spells);
      const whole = kaplanMeier(of(list));
      whole.time.forEach((t, j) => {
        expectClose(survivalAt(split, t)!.estimate, whole.survival[j]!);
      });
    });
  });

  it("limits hold the estimate for each kind", () => {
    check((list) => {
      for (const limits of Object.values(kinds)) {
        const curve = kaplanMeier({ ...of(list), limits: limits as "plain" });
        curve.survival.forEach((s, j) => {
          expect(curve.lower[j]!).toBeLessThanOrEqual(s + 1e-12);
          expect(curve.upper[j]!).toBeGreaterThanOrEqual(s - 1e-12);
          expect(curve.lower[j]! >= 0 && curve.upper[j]! <= 1).toBe(true);
        });
      }
    });
  });
});

/** Compares with a curve of R; limits only where R defines them, at 0 < S < 1. */
function agrees(curve: SurvivalCurve, expected: Record<string, number[]>): void {
  for (const column of ["time", "atRisk", "events", "censored", "survival"] as const) {
    expectClose(curve[column], expected[column]!);
  }
  curve.survival.forEach((s, j) => {
    if (s === 0 || s === 1) return;
    for (const column of ["standardError", "lower", "upper"] as const) {
      expectClose(curve[column][j]!, expected[column]![j]!);
    }
  });
}

function same(one: SurvivalCurve, other: SurvivalCurve): void {
  expectClose(one.time, other.time);
  expectClose(one.survival, other.survival);
  expectClose(one.standardError, other.standardError);
  expectClose(one.upper, other.upper);
}
