import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clusteredKaplanMeier } from "../../src/statistics/clustered-kaplan-meier.ts";
import { completenessIndex } from "../../src/statistics/completeness-index.ts";
import { hallWellnerBand, hallWellnerPoint } from "../../src/statistics/hall-wellner-band.ts";
import { kaplanMeier } from "../../src/statistics/kaplan-meier.ts";
import { nelsonAalen } from "../../src/statistics/nelson-aalen.ts";
import { reverseKaplanMeier } from "../../src/statistics/reverse-kaplan-meier.ts";
import { survivalAt } from "../../src/statistics/survival-at.ts";
import { survivalDifferenceAt, survivalTestAt } from "../../src/statistics/survival-difference.ts";
import { medianSurvival } from "../../src/statistics/survival-quantile.ts";
import { expectClose } from "./close-to.ts";
import { followUps, placebo, sixMercaptopurine } from "./follow-ups.ts";
import { readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("survival");
const lung = () => followUps("lung.csv", "time", "status", "2");
const rows = fc.array(fc.record({ time: fc.nat(30), event: fc.boolean(), patient: fc.nat(9) }), {
  minLength: 1,
  maxLength: 50,
});
const column = <T extends object, K extends keyof T>(list: T[], name: K) =>
  list.map((row) => row[name]);

describe("the reverse Kaplan–Meier estimate", () => {
  it("takes events before censorings: 15/16 at 13 weeks in the AML data, not 16/17", () => {
    const curve = reverseKaplanMeier(followUps("aml.csv", "time", "status"));
    expectClose(survivalAt(curve, 13)!.estimate, 15 / 16);
  });

  it("agrees with the same counts in R", () => {
    for (const [name, data] of [
      ["aml", followUps("aml.csv", "time", "status")],
      ["lung", lung()],
    ] as const) {
      const curve = reverseKaplanMeier(data);
      const { time, survival } = reference.reverse[name];
      time.forEach((t: number, k: number) => {
        expectClose(survivalAt(curve, t)!.estimate, survival[k]);
      });
    }
    expect(medianSurvival(reverseKaplanMeier(sixMercaptopurine())).estimate).toBe(25);
  });

  it("times the survival curve is the share still under observation", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const data = { time: column(list, "time"), event: column(list, "event") };
        const survival = kaplanMeier(data);
        const reverse = reverseKaplanMeier(data);
        survival.time.forEach((t, j) => {
          const share = list.filter((row) => row.time > t).length / list.length;
          expectClose(survival.survival[j]! * reverse.survival[j]!, share);
        });
      }),
      { seed: 61, numRuns: 150 },
    );
  });
});

describe("the Nelson–Aalen estimate", () => {
  it("agrees with R, and with 3/21 by hand", () => {
    const hazard = nelsonAalen(sixMercaptopurine());
    expectClose(hazard.hazard[0]!, 3 / 21);
    expectClose(hazard.standardError[0]!, Math.sqrt(3) / 21);
    expectClose(hazard.hazard, reference.sixMp.plain.hazard);
    expectClose(hazard.standardError, reference.sixMp.plain.hazardError);
    expectClose(nelsonAalen(lung()).hazard, reference.lung.hazard);
    expectClose(hazard.survival[0]!, Math.exp(-1 / 7));
  });

  it("never exceeds -ln of Kaplan–Meier, and its limits hold it", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const data = { time: column(list, "time"), event: column(list, "event") };
        const hazard = nelsonAalen(data);
        const curve = kaplanMeier(data);
        hazard.hazard.forEach((h, j) => {
          expect(h).toBeLessThanOrEqual(-Math.log(curve.survival[j]!) + 1e-12);
          expect(hazard.lower[j]! <= h && h <= hazard.upper[j]!).toBe(true);
        });
      }),
      { seed: 62, numRuns: 100 },
    );
    expect(nelsonAalen({ time: [], event: [] }).hazard).toHaveLength(0);
  });
});

describe("the clustered curve", () => {
  const eyes = () => ({
    ...followUps("retinopathy.csv", "futime", "status"),
    cluster: readNumbers("retinopathy.csv").id!,
  });

  it("agrees with R's infinitesimal jackknife on both eyes of 197 patients", () => {
    const curve = clusteredKaplanMeier(eyes());
    expectClose(curve.time, reference.clusteredAll.time);
    expectClose(curve.survival, reference.clusteredAll.survival);
    expectClose(curve.standardError, reference.clusteredAll.standardError);
    [12, 24, 36, 48, 60].forEach((t, k) => {
      expectClose(survivalAt(curve, t)!.standardError, reference.clustered.standardError[k]);
    });
  });

  it("agrees with R under delayed entry and weights", () => {
    const late = reference.lungLate as Record<string, number>[];
    const values = (name: string) => late.map((row) => row[name]!);
    const curve = clusteredKaplanMeier({
      time: values("time"),
      event: values("event"),
      entry: values("entry"),
      weight: values("weight"),
      cluster: late.map((_, i) => Math.floor((i + 1) / 3)),
    });
    const theirs = reference.clusteredWeighted;
    theirs.time.forEach((t: number, k: number) => {
      if (!Number.isFinite(theirs.standardError[k])) return;
      expectClose(survivalAt(curve, t)!.standardError, theirs.standardError[k], 1e-8);
    });
  });

  it("with one eye a patient is Greenwood's, and with every eye twice sqrt 2 times as wide", () => {
    fc.assert(
      fc.property(rows, (list) => {
        const data = { time: column(list, "time"), event: column(list, "event") };
        const single = clusteredKaplanMeier({ ...data, cluster: list.map((_, i) => i) });
        const greenwood = kaplanMeier(data);
        expectClose(single.standardError, greenwood.standardError, 1e-7);
        const both = [...list, ...list];
        const twice = clusteredKaplanMeier({
          time: column(both, "time"),
          event: column(both, "event"),
          cluster: both.map((_, i) => i % list.length),
        });
        expectClose(twice.standardError, greenwood.standardError, 1e-7);
      }),
      { seed: 63, numRuns: 100 },
    );
  });
});

describe("the Hall–Wellner band", () => {
  it("has points that agree with quadrature over the bridge's end in R", () => {
    [0.1, 0.25, 0.5, 0.75, 0.9].forEach((a, k) => {
      expectClose(hallWellnerPoint(a, 0.95), reference.bridge[k], 1e-8);
    });
  });

  it("tends to Kolmogorov's 1.3581 as the horizon takes in everything", () => {
    expectClose(hallWellnerPoint(1 - 1e-9, 0.95), 1.3581, 1e-5);
  });

  it("holds the curve, is wider than pointwise plain limits, and shrinks with the horizon", () => {
    const curve = kaplanMeier({ ...lung(), limits: "plain" });
    const band = hallWellnerBand(curve, { horizon: 365 })!;
    const whole = hallWellnerBand(curve)!;
    band.time.forEach((t, k) => {
      const point = survivalAt(curve, t)!;
      expect(band.lower[k]!).toBeLessThan(point.estimate);
      if (t > 100)
        expect(band.upper[k]! - band.lower[k]!).toBeGreaterThan(point.upper - point.lower);
      expect(whole.lower[k]!).toBeLessThanOrEqual(band.lower[k]! + 1e-12);
    });
    expect(hallWellnerBand(kaplanMeier({ time: [1, 2], event: [0, 0] }))).toBeNull();
    expect(hallWellnerBand(curve, { horizon: 1 })).toBeNull();
    expect(() => hallWellnerBand(curve, { horizon: Number.NaN })).toThrow("the horizon is NaN");
  });
});

describe("two curves at one time", () => {
  it("differ as two proportions do when nothing is censored", () => {
    const one = kaplanMeier({ time: [1, 2, 3, 4, 5], event: [1, 1, 1, 1, 1] });
    const two = kaplanMeier({ time: [3, 4, 5, 6, 7], event: [1, 1, 1, 1, 1] });
    const difference = survivalDifferenceAt(one, two, 3)!;
    expectClose(difference.estimate, 2 / 5 - 4 / 5);
    // by hand: var ln(-ln S) = (1 - S) / (n S ln^2 S)
    const part = (s: number) => ({
      value: Math.log(-Math.log(s)),
      variance: (1 - s) / (5 * s * Math.log(s) ** 2),
    });
    const [a, b] = [part(0.4), part(0.8)];
    expectClose(difference.chiSquare!, (a.value - b.value) ** 2 / (a.variance + b.variance));
  });

  it("negate when exchanged, and have no test at 0 or 1", () => {
    const one = kaplanMeier(sixMercaptopurine());
    const two = kaplanMeier(placebo());
    const there = survivalDifferenceAt(one, two, 10)!;
    const back = survivalDifferenceAt(two, one, 10)!;
    expectClose([back.lower, back.upper], [-there.upper, -there.lower]);
    expectClose(back.pValue!, there.pValue!);
    expect(survivalDifferenceAt(one, two, 25)!.pValue).toBeNull();
    expect(survivalDifferenceAt(one, two, 36)).toBeNull();
    expect(() => survivalDifferenceAt(one, kaplanMeier({ ...placebo(), level: 0.9 }), 5)).toThrow(
      /levels are 0.95 and 0.9/,
    );
  });
});

describe("several curves at one time", () => {
  const byGroup = (name: string, groups: number[]) => {
    const columns = readNumbers("lung.csv");
    const { time, event } = lung();
    return groups.map((group) => {
      const pick = (values: number[]) => values.filter((_, i) => columns[name]![i] === group);
      return kaplanMeier({ time: pick(time), event: pick(event) });
    });
  };

  it("agree with the contrasts written out in R", () => {
    const three = survivalTestAt(byGroup("ph.ecog", [0, 1, 2]), 180)!;
    expectClose(three.chiSquare, reference.equalAt.ecog);
    expect(three.degreesOfFreedom).toBe(2);
    const two = survivalTestAt(byGroup("sex", [1, 2]), 365)!;
    expectClose(two.chiSquare, reference.equalAt.sex);
  });

  it("differ, two by two, with the limits of Zou and Donner written out in R", () => {
    const [men, women] = byGroup("sex", [1, 2]);
    const differences = {
      sex: survivalDifferenceAt(men!, women!, 365)!,
      freireich: survivalDifferenceAt(
        kaplanMeier(sixMercaptopurine()),
        kaplanMeier(placebo()),
        10,
      )!,
    };
    for (const [name, { estimate, lower, upper }] of Object.entries(differences)) {
      expectClose([estimate, lower, upper], reference.differenceAt[name]);
    }
  });

  it("are two curves where there are two, in any order; a copy adds nothing to no difference", () => {
    const curves = byGroup("ph.ecog", [0, 1, 2]);
    const test = survivalTestAt(curves, 200)!;
    expectClose(survivalTestAt(curves.toReversed(), 200)!.chiSquare, test.chiSquare);
    const [one, two] = curves;
    const pair = survivalTestAt([one!, two!], 200)!;
    expectClose(pair.pValue, survivalDifferenceAt(one!, two!, 200)!.pValue);
    const alike = survivalTestAt([one!, one!, one!], 200)!;
    expectClose(alike.pValue, 1);
  });

  it("have no test where one is at 1, is not known, or none is given", () => {
    const none = kaplanMeier({ time: [9, 9], event: [0, 0] });
    const curves = [kaplanMeier(sixMercaptopurine()), kaplanMeier(placebo()), none];
    expect(survivalTestAt(curves, 8)!.pValue).toBeNull();
    expect(survivalTestAt(curves, 10)).toBeNull();
    expect(survivalTestAt([], 10)).toBeNull();
    const alone = survivalTestAt(curves.slice(0, 1), 10)!;
    expect([alone.chiSquare, alone.degreesOfFreedom, alone.pValue]).toEqual([0, 0, 1]);
  });
});

describe("the completeness index", () => {
  it("is observed over possible person-time, by hand", () => {
    // one failed at 40 of 100, one lost at 30 of 60, one followed to the close at 80
    const index = completenessIndex([40, 30, 80], [1, 0, 0], [100, 60, 80])!;
    expect([index.observed, index.possible]).toEqual([150, 180]);
    expectClose(index.index, 150 / 180);
    expect(completenessIndex([], [], [])).toBeNull();
    expect(completenessIndex([90], [0], [60])!.index).toBe(1);
    expect(() => completenessIndex([1], [0], [-1])).toThrow("possible[0] is -1");
  });
});
