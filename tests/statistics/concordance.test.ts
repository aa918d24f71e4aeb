import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { concordance } from "../../src/statistics/concordance.ts";
import { coxRegression } from "../../src/statistics/cox-regression.ts";
import { rocLimits } from "../../src/statistics/roc-limits.ts";
import { expectClose } from "./close-to.ts";
import { followUps } from "./follow-ups.ts";
import { readColumns, readReference } from "./reference-data.ts";

const reference = readReference("cox");
const rows = reference.lung as Record<string, number>[];
const column = (name: string) => rows.map((row) => row[name]!);

describe("concordance", () => {
  it("agrees with R: estimate, jackknife error and the counts of pairs", () => {
    const names = ["age", "sex", "ph.ecog"];
    const base = { time: column("week"), event: column("event") };
    const fit = coxRegression({ ...base, covariates: names.map(column) });
    const score = rows.map((row) =>
      names.reduce((sum, name, c) => sum + row[name]! * fit.coefficients[c]!.estimate, 0),
    );
    const rounded = score.map((value) => Math.round(value * 1e9) / 1e9);
    agrees({ ...base, score: rounded }, reference.concordance.model);
    agrees({ ...base, time: column("time"), score: column("age") }, reference.concordance.age);
    const age = { ...base, score: column("age") };
    agrees({ ...age, strata: column("sex") }, reference.concordance.strata);
    agrees({ ...age, cluster: column("inst") }, reference.concordance.cluster);
    const days = { time: column("time"), event: column("event"), score: column("age") };
    agrees({ ...days, entry: column("entry") }, reference.concordance.entry);
    const late = rows.map((row) => ({ ...row, entry: Math.floor(row.entry! / 7) }) as typeof row);
    const observed = late.filter((row) => row.entry! < row.week!);
    const of = (name: string) => observed.map((row) => row[name]!);
    const weeks = { time: of("week"), event: of("event"), score: of("age"), strata: of("sex") };
    agrees({ ...weeks, entry: of("entry") }, reference.concordance.weeks);
    const freireich = followUps("freireich.csv", "time", "status");
    const placebo = readColumns("freireich.csv").group!.map((g) => Number(g === "placebo"));
    agrees({ ...freireich, score: placebo }, reference.concordance.freireich);
  });

  it("counts pairs as a plain double loop does", () => {
    const stay = fc.record({ entry: fc.nat(4), stay: fc.integer({ min: 1, max: 6 }) });
    const row = fc.record({ seen: stay, event: fc.boolean(), score: fc.nat(5) });
    const list = fc
      .array(row, { maxLength: 40 })
      .map((rows) =>
        rows.map(({ seen, ...rest }) => ({ ...rest, ...seen, time: seen.entry + seen.stay })),
      );
    fc.assert(
      fc.property(list, (data) => {
        const counts = { concordant: 0, discordant: 0, tied: 0 };
        for (const a of data) {
          for (const b of data) {
            const isFirst = a.event && (a.time < b.time || (a.time === b.time && !b.event));
            if (!isFirst || b.entry >= a.time) continue;
            if (a.score > b.score) counts.concordant++;
            else if (a.score < b.score) counts.discordant++;
            else counts.tied++;
          }
        }
        const result = concordance({
          time: data.map((row) => row.time),
          event: data.map((row) => row.event),
          entry: data.map((row) => row.entry),
          score: data.map((row) => row.score),
        });
        if (counts.concordant + counts.discordant + counts.tied === 0) {
          expect(result).toBeNull();
        } else expect(result).toMatchObject(counts);
      }),
      { seed: 82, numRuns: 200 },
    );
  });

  it("is 1 for a perfect order, 1/2 for one score, and its complement for the reverse", () => {
    const data = { time: [1, 2, 3, 4], event: [1, 1, 1, 0] };
    expect(concordance({ ...data, score: [4, 3, 2, 1] })!.estimate).toBe(1);
    expect(concordance({ ...data, score: [4, 3, 2, 1] })!.standardError).toBe(0);
    // an order that is right three times may be luck: limits as of an area under the ROC curve
    const perfect = concordance({ ...data, score: [4, 3, 2, 1] })!;
    const score = rocLimits({ estimate: 1, standardError: 0, events: 3, others: 1 }, "score", 0.95);
    expect([perfect.lower, perfect.upper]).toEqual([score[0], 1]);
    expect(perfect.lower).toBeLessThan(0.7);
    expect(perfect.method).toBe("the wider of jackknife and score");
    const reverse = concordance({ ...data, score: [1, 2, 3, 4] })!;
    expectClose([reverse.lower, reverse.upper], [0, 1 - perfect.lower]);
    const all = concordance({ time: [1, 2, 3], event: [1, 1, 1], score: [3, 2, 1] })!;
    expect(all.lower).toBeLessThan(perfect.lower);
    expect(concordance({ ...data, score: [1, 1, 1, 1] })!.estimate).toBe(0.5);
    expect(concordance({ ...data, score: [1, 2, 3, 4] })!.estimate).toBe(0);
    expect(() => concordance({ ...data, score: [1, 2, 3, Number.NaN] })).toThrow("score[3] is NaN");
  });
});

function agrees(
  input: Parameters<typeof concordance>[0],
  expected: { estimate: number; standardError: number; counts: number[] },
): void {
  const result = concordance(input)!;
  expectClose(result.estimate, expected.estimate);
  expectClose(result.standardError, expected.standardError, 1e-8);
  expect([result.concordant, result.discordant, result.tied]).toEqual(expected.counts);
}
