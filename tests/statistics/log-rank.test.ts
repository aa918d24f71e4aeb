import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LogRankInput, logRank, logRankTrend } from "../../src/statistics/log-rank.ts";
import { expectClose, expectPrinted } from "./close-to.ts";
import { followUps } from "./follow-ups.ts";
import { readColumns, readNumbers, readReference } from "./reference-data.ts";

const { tests } = readReference("survival");
const freireich = (): LogRankInput => ({
  ...followUps("freireich.csv", "time", "status"),
  group: readColumns("freireich.csv").group!,
});
const lungBy = (column: string, strata?: string): LogRankInput => {
  const columns = readNumbers("lung.csv");
  const { time, event } = followUps("lung.csv", "time", "status", "2");
  const isKnown = (i: number) =>
    !Number.isNaN(columns[column]![i]) && !(strata && Number.isNaN(columns[strata]![i]));
  const pick = (values: number[]) => values.filter((_, i) => isKnown(i));
  return {
    time: pick(time),
    event: pick(event),
    group: pick(columns[column]!),
    ...(strata === undefined ? {} : { strata: pick(columns[strata]!) }),
  };
};

function agrees(input: LogRankInput, expected: Record<string, number[]>): void {
  const test = logRank(input);
  expectClose(test.chiSquare, expected.chiSquare as unknown as number);
  expectClose(test.observed, expected.observed!);
  expectClose(test.expected, expected.expected!);
  expectClose(test.variance, expected.variance!);
}

describe("the log-rank test", () => {
  it("gives textbooks' 16.79 for Freireich 1963 (Cox 1972 and later texts)", () => {
    const test = logRank(freireich());
    expectPrinted(test.chiSquare, "16.79");
    expect(test.observed).toEqual([9, 21]);
    expect(test.degreesOfFreedom).toBe(1);
    expectClose(test.pValue, 4.168809e-5, 1e-6);
  });

  it("agrees with R's survdiff: two and four groups, strata, rho", () => {
    agrees(freireich(), tests.freireich);
    agrees({ ...freireich(), strata: readNumbers("freireich.csv").pair! }, tests.freireichPairs);
    agrees({ ...freireich(), weighting: { rho: 1 } }, tests.freireichRho1);
    const aml = { ...followUps("aml.csv", "time", "status"), group: readColumns("aml.csv").x! };
    agrees(aml, tests.aml);
    agrees({ ...aml, weighting: { rho: 1 } }, tests.amlRho1);
    agrees(lungBy("sex"), tests.lungSex);
    agrees(lungBy("sex", "inst"), tests.lungSexInst);
    agrees(lungBy("ph.ecog"), tests.lungEcog);
    agrees({ ...lungBy("ph.ecog"), weighting: { rho: 0.5 } }, tests.lungEcogHalf);
    const retinopathy = {
      ...followUps("retinopathy.csv", "futime", "status"),
      group: readNumbers("retinopathy.csv").trt!,
    };
    agrees(retinopathy, tests.retinopathy);
  });

  it("matched pairs reduce to a sign test by hand: (18 - 21/2)^2 / (21/4)", () => {
    const test = logRank({ ...freireich(), strata: readNumbers("freireich.csv").pair! });
    expectClose(test.chiSquare, 7.5 ** 2 / 5.25);
  });

  it("weighted by those at risk it is Gehan's test, from his count of pairs", () => {
    // U of Gehan 1965 counted over all pairs of one arm with the other: 271
    const { time, event, group } = freireich();
    const test = logRank({ ...freireich(), weighting: "Gehan" });
    let score = 0;
    for (let i = 0; i < time.length; i++) {
      for (let j = 0; j < time.length; j++) {
        if (group[i] !== "6-MP" || group[j] !== "placebo") continue;
        if (event[j] && (time[i]! > time[j]! || (time[i] === time[j] && !event[i]))) score++;
        if (event[i] && (time[j]! > time[i]! || (time[i] === time[j] && !event[j]))) score--;
      }
    }
    expect(score).toBe(271);
    expectClose(Math.abs(test.observed[0]! - test.expected[0]!), score);
    expectClose(test.chiSquare, 13.45785205, 1e-8);
  });

  it("with every weighting agrees with the sums over event times written out in R", () => {
    const weightings = {
      gehan: "Gehan",
      tarone: "Tarone-Ware",
      peto: "Peto",
      late: { rho: 0, gamma: 1 },
      both: { rho: 0.5, gamma: 2 },
    } as const;
    for (const [name, weighting] of Object.entries(weightings)) {
      const { freireich: first, lung: second } = readReference("survival").weightings;
      expectClose(logRank({ ...freireich(), weighting }).chiSquare, first[name], 1e-8);
      expectClose(logRank({ ...lungBy("sex"), weighting }).chiSquare, second[name], 1e-8);
    }
    expect(() => logRank({ ...freireich(), weighting: { rho: -1 } })).toThrow(/rho is -1/);
    expect(() => logRank({ ...freireich(), weighting: { rho: Infinity } })).toThrow(
      /rho is Infinity/,
    );
  });

  it("for trend over two groups is the log-rank test, and knows no trend without scores' spread", () => {
    const test = logRank(freireich());
    expectClose(logRankTrend(test).chiSquare, test.chiSquare);
    expect(logRankTrend(test, [1, 1]).pValue).toBe(1);
    expect(() => logRankTrend(test, [1])).toThrow(/scores has 1 values/);
    const ecog = logRankTrend(logRank(lungBy("ph.ecog")));
    const { trend } = readReference("survival");
    expectClose(ecog.z, trend.plain);
    expectClose(logRankTrend(logRank(lungBy("ph.ecog")), [0, 1, 4, 9]).z, trend.uneven);
    expectClose(logRankTrend(logRank(lungBy("ph.ecog")), [10, 20, 30, 40]).z, ecog.z);
    const far = [1e9 + 1, 1e9 + 2, 1e9 + 3, 1e9 + 4];
    expectClose(logRankTrend(logRank(lungBy("ph.ecog")), far).z, ecog.z);
    expect(() => logRankTrend(test, [1, Number.NaN])).toThrow(/scores\[1\] is NaN/);
  });
});

describe("edges of the log-rank test", () => {
  it("one group, no rows, no events: nothing to compare, p is 1 on 0 degrees", () => {
    for (const input of [
      { time: [1, 2], event: [1, 0], group: ["a", "a"] },
      { time: [], event: [], group: [] },
      { time: [1, 2], event: [0, 0], group: ["a", "b"] },
    ]) {
      const test = logRank(input);
      expect([test.chiSquare, test.degreesOfFreedom, test.pValue]).toEqual([0, 0, 1]);
    }
  });

  it("an empty group is listed with 0 and takes no degree", () => {
    const two = logRank(freireich());
    const three = logRank({ ...freireich(), groups: ["6-MP", "nobody", "placebo"] });
    expect(three.subjects).toEqual([21, 0, 21]);
    expect(three.observed).toEqual([9, 0, 21]);
    expectClose(three.chiSquare, two.chiSquare);
    expect(three.degreesOfFreedom).toBe(1);
  });

  it("refuses a missing or undeclared group", () => {
    const group = ["a", undefined as unknown as string];
    expect(() => logRank({ time: [1, 2], event: [1, 1], group })).toThrow("group[1] is missing");
    const declared = { time: [1], event: [1], group: ["c"], groups: ["a", "b"] };
    expect(() => logRank(declared)).toThrow("group[0] is c; expected one of a, b");
  });
});

describe("laws of the log-rank test", () => {
  const rows = fc.array(
    fc.record({ time: fc.nat(30), event: fc.nat(1), group: fc.nat(2), stratum: fc.nat(1) }),
    { minLength: 2, maxLength: 60 },
  );
  type Row = { time: number; event: number; group: number; stratum: number };
  const of = (list: readonly Row[]) => ({
    time: list.map((row) => row.time),
    event: list.map((row) => row.event),
    group: list.map((row) => row.group),
    strata: list.map((row) => row.stratum),
  });
  const check = (law: (list: Row[]) => void) =>
    fc.assert(fc.property(rows, law), { seed: 31, numRuns: 150 });

  it("expected events add up to observed ones", () => {
    check((list) => {
      const test = logRank(of(list));
      const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
      expectClose(sum(test.expected), sum(test.observed));
    });
  });

  it("does not depend on order, unit of time or the names of groups", () => {
    check((list) => {
      const test = logRank(of(list));
      const other = of([...list].reverse());
      const renamed = logRank({
        ...other,
        time: other.time.map((t) => t / 7.3),
        group: other.group.map((g) => ["z", "m", "a"][g]!),
      });
      expectClose(renamed.chiSquare, test.chiSquare, 1e-7);
    });
  });

  it("is the same whether days are tabled, sorted by day or sorted as times, strata and all", () => {
    const row = fc.record({
      day: fc.nat(12),
      event: fc.nat(1),
      group: fc.nat(2),
      stratum: fc.nat(5),
    });
    fc.assert(
      fc.property(fc.array(row, { maxLength: 60 }), fc.constantFrom(1, 40), (list, copies) => {
        // one copy leaves the table nearly empty, forty fill it
        const rows = Array.from({ length: copies }, () => list).flat();
        const event = rows.map((each) => each.event);
        const group = rows.map((each) => each.group);
        const strata = rows.map((each) => each.stratum);
        const days = logRank({ time: rows.map(({ day }) => day), event, group, strata });
        const times = logRank({ time: rows.map(({ day }) => day + 0.5), event, group, strata });
        expect(days).toEqual(times);
      }),
      { seed: 24, numRuns: 100 },
    );
  });

  it("splitting rows into spells of delayed entry changes nothing", () => {
    check((list) => {
      const { strata: _, ...plain } = of(list);
      const late = list.filter((row) => row.time > 10);
      const split = logRank({
        time: [...list.map((row) => Math.min(row.time, 10)), ...late.map((row) => row.time)],
        event: [...list.map((row) => (row.time > 10 ? 0 : row.event)), ...late.map((r) => r.event)],
        group: [...plain.group, ...late.map((row) => row.group)],
        entry: [...list.map(() => 0), ...late.map(() => 10)],
      });
      expectClose(split.chiSquare, logRank(plain).chiSquare, 1e-8);
    });
  });

  it("delayed entry at 0 is no delay, and one stratum is no strata", () => {
    check((list) => {
      const { strata: _, ...plain } = of(list);
      const test = logRank(plain);
      expectClose(logRank({ ...plain, entry: list.map(() => 0) }).chiSquare, test.chiSquare);
      expectClose(logRank({ ...plain, strata: list.map(() => 7) }).chiSquare, test.chiSquare);
    });
  });
});
