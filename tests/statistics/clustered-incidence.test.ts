/** Incidence and curves of eyes where patients give two. */
import { describe, expect, it } from "vitest";
import { aalenJohansen } from "../../src/statistics/aalen-johansen.ts";
import { clusteredAalenJohansen } from "../../src/statistics/clustered-aalen-johansen.ts";
import { clusteredKaplanMeier } from "../../src/statistics/clustered-kaplan-meier.ts";
import { clustersAtRisk, limitedByClusters } from "../../src/statistics/clusters-at-risk.ts";
import { incidenceAt } from "../../src/statistics/incidence-at.ts";
import { survivalAt } from "../../src/statistics/survival-at.ts";
import { expectClose } from "./close-to.ts";
import { readNumbers, readReference } from "./reference-data.ts";

const reference = readReference("clustered-incidence");

/** Both eyes of 197 patients (Huster et al. 1989), with two causes by a rule of ours. */
function eyes(keep: (id: number, treated: number) => boolean) {
  const { id, trt, futime, status } = readNumbers("retinopathy.csv");
  const rows = id!.map((_, row) => row).filter((row) => keep(id![row]!, trt![row]!));
  return {
    time: rows.map((row) => futime![row]!),
    cause: rows.map((row) => (status![row] === 0 ? 0 : id![row]! % 3 === 0 ? 2 : 1)),
    cluster: rows.map((row) => id![row]!),
  };
}

const both = () => eyes(() => true);
const some = () => eyes((id, treated) => treated === 1 || id % 2 === 1);

describe("the cumulative incidence of eyes clustered by patient", () => {
  it("agrees with the jackknife written out in R on both eyes of 197 patients, and on some", () => {
    for (const [name, data] of [
      ["both", both()],
      ["some", some()],
    ] as const) {
      const curves = clusteredAalenJohansen(data);
      const alone = clusteredAalenJohansen({ ...data, cluster: data.time.map((_, row) => row) });
      const stored = reference[name];
      (reference.times as number[]).forEach((time, at) => {
        for (const cause of [1, 2]) {
          const found = incidenceAt(curves, cause, time)!;
          expectClose(found.estimate, stored.incidence[cause - 1][at], 1e-9);
          // Derivatives by differences of 1e-4 in R.
          expectClose(found.standardError, stored.clustered[cause - 1][at], 1e-6);
          const { standardError } = incidenceAt(alone, cause, time)!;
          expectClose(standardError, stored.alone[cause - 1][at], 1e-9);
        }
      });
    }
  });

  it("with one eye a patient has the delta-method error, and with every eye twice sqrt 2 times it", () => {
    const { time, cause } = both();
    const plain = aalenJohansen({ time, cause });
    const alone = clusteredAalenJohansen({ time, cause, cluster: time.map((_, row) => row) });
    const twice = clusteredAalenJohansen({
      time: [...time, ...time],
      cause: [...cause, ...cause],
      cluster: [...time, ...time].map((_, row) => row % time.length),
    });
    plain.causes.forEach(({ standardError, lower, upper }, k) => {
      expectClose(alone.causes[k]!.standardError, standardError, 1e-9);
      expectClose(alone.causes[k]!.lower, lower, 1e-9);
      expectClose(alone.causes[k]!.upper, upper, 1e-9);
      expectClose(twice.causes[k]!.standardError, standardError, 1e-9);
    });
  });

  it("with one cause has the error of the clustered survival curve", () => {
    const { time, cause, cluster } = both();
    const event = cause.map((each) => each > 0);
    const curve = clusteredKaplanMeier({ time, event, cluster });
    const [incidence] = clusteredAalenJohansen({
      time,
      cause: event.map(Number),
      cluster,
    }).causes;
    expectClose(incidence!.standardError, curve.standardError, 1e-9);
  });

  it("by hand: two patients whose two eyes fail together of one cause are two", () => {
    const [one] = clusteredAalenJohansen({
      time: [1, 1, 2, 2],
      cause: [1, 1, 0, 0],
      cluster: ["A", "A", "B", "B"],
    }).causes;
    // F = 1/2; a patient's influence is 2 (1 - 1/2) / 4 up or down: sqrt(2 / 16).
    expectClose(one!.standardError[0]!, Math.sqrt(1 / 8));
  });

  it("defines the edges: nobody, all failed at once, lengths that differ", () => {
    expect(clusteredAalenJohansen({ time: [], cause: [], cluster: [] }).time).toHaveLength(0);
    const [all] = clusteredAalenJohansen({ time: [0, 0], cause: [1, 1], cluster: [7, 7] }).causes;
    expect([all!.incidence[0], all!.standardError[0]]).toEqual([1, 0]);
    expect(() => clusteredAalenJohansen({ time: [1], cause: [1], cluster: [] })).toThrow(
      "cluster has 0 values",
    );
  });
});

describe("where none has failed", () => {
  const time = [5, 6, 7, 7, 8, 8];
  const cluster = ["A", "A", "B", "B", "C", "D"];

  it("patients are counted by hand: four, then those of whom an eye is still there", () => {
    expect([...clustersAtRisk(time, cluster)]).toEqual([4, 4, 3, 2]);
  });

  it("the exact limit is that of so many patients: 0.025^(1/n) as the binomial has it", () => {
    const curve = clusteredKaplanMeier({ time, event: time.map(() => 0), cluster });
    const limited = limitedByClusters(curve, clustersAtRisk(time, cluster));
    expectClose(limited.lower, [
      0.025 ** (1 / 4),
      0.025 ** (1 / 4),
      0.025 ** (1 / 3),
      0.025 ** 0.5,
    ]);
    expectClose(survivalAt(limited, 1)!.lower, 0.025 ** (1 / 4));
    expect(survivalAt(limited, 1)!.atRisk).toBe(6);
    const curves = clusteredAalenJohansen({ time, cause: time.map(() => 0), cluster });
    expectClose(incidenceAt(curves, 1, 1)!.upper, 1 - 0.025 ** (1 / 4));
    expectClose(curves.causes[0]!.upper[2]!, 1 - 0.025 ** (1 / 3));
  });

  it("one patient of whom one eye failed is no certainty: the error is that of one row", () => {
    const one = { time: [4, 4], event: [1, 0], cluster: [7, 7] };
    const curve = limitedByClusters(clusteredKaplanMeier(one), clustersAtRisk(one.time, [7, 7]));
    expectClose(curve.standardError[0]!, Math.sqrt((0.5 * 0.5) / 1));
    expect(curve.upper[0]! - curve.lower[0]!).toBeGreaterThan(0.8);
    const [first] = clusteredAalenJohansen({ ...one, cause: [1, 2] }).causes;
    expectClose(first!.standardError[0]!, Math.sqrt((0.5 * 0.5) / 1));
  });

  it("one eye of each of many patients failing on a day is no certainty either", () => {
    for (const patients of [3, 5, 6, 7, 10, 13, 33]) {
      const time = Array.from({ length: 2 * patients }, (_, i) => (i % 2 === 0 ? 3 : 30 + i));
      const event = time.map((t) => (t === 3 ? 1 : 0));
      const cluster = time.map((_, i) => Math.floor(i / 2));
      const curve = clusteredKaplanMeier({ time, event, cluster });
      // the influences of both eyes of a patient cancel, whatever rounding leaves of them
      expect(curve.standardError[1]).toBe(0);
      const limited = limitedByClusters(curve, clustersAtRisk(time, cluster));
      // as if both eyes agreed: the binomial error of so many patients
      expectClose(limited.standardError[1]!, Math.sqrt((0.5 * 0.5) / patients));
    }
  });

  it("from the first failure on, limits are the curve's own; all failed at once have those of patients", () => {
    const event = [0, 1, 0, 0, 1, 0];
    const curve = clusteredKaplanMeier({ time, event, cluster });
    const limited = limitedByClusters(curve, clustersAtRisk(time, cluster));
    expect([...limited.lower.slice(1)]).toEqual([...curve.lower.slice(1)]);
    const gone = clusteredKaplanMeier({ time: [0, 0], event: [1, 1], cluster: [1, 1] });
    expectClose(limitedByClusters(gone, clustersAtRisk([0, 0], [1, 1])).upper[0]!, 0.975);
  });
});
